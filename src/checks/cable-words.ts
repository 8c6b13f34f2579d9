/** What the rules about order and openings say about the ends of a cable: which one can be fed, and what took the others. */
import { placeAt } from "../findings/places.ts"
import type { Related } from "../findings/types.ts"
import { nameOutline } from "../fit/openings.ts"
import type { Act } from "../kit/types.ts"
import { type CapturedEnd, type ChooseEnd, describeAct, type EndChoice } from "../sequence/index.ts"
import { describeShortly } from "./order-words.ts"
import type { Subject } from "./types.ts"

/** An act that runs an end through an opening, and whose end cannot be had, told with both ends of the cable. */
export type EndWords = {
  /** Ways to say that no end can be taken in hand and which steps took them, longest first; none while one is free. */
  readonly messages: readonly string[]
  /** The act's own end is fixed for good. */
  readonly isFixed: boolean
  /** Sentences about the ends besides the act's own. */
  readonly others: readonly string[]
  /** What took each end. */
  readonly related: readonly Related[]
  /** The other end that can be fed instead, as advice; undefined when there is none. */
  readonly instead: string | undefined
}

/** Tells about the ends of a cable at a `feed` or `withdraw` whose end is not free then; undefined for other acts. */
export function sayEnds(subject: Subject, choose: ChooseEnd, act: Act): EndWords | undefined {
  if ((act.verb !== "feed" && act.verb !== "withdraw") || act.through === undefined) return undefined
  const choice = choose(act)
  if (choice === undefined) return undefined
  const { cable, captured } = choice
  const count = subject.kit.cables.find(({ id }) => id === cable)?.ends.length ?? 0
  const steps = captured.flatMap(({ by }) => (by === undefined ? [] : `step \`${by.step}\` ${describeShortly(by.act)}`))
  const isCaptive = captured.length === count && steps.length > 1
  const goes = `${act.verb === "feed" ? "go through" : "come out of"} \`${act.through}\``
  return {
    messages: isCaptive
      ? [
          `\`${cable}\` cannot ${goes} any more: ${steps.join(", ")}`,
          `\`${cable}\` cannot ${goes}: ${steps.join(", ")}`,
          `\`${cable}\` cannot ${goes} any more: none of its ends is free`,
        ]
      : [],
    isFixed: captured.some(({ end, isFixed }) => end === act.target && isFixed),
    others: captured.filter(({ end }) => end !== act.target).flatMap((one) => sayCaptured(subject, one)),
    related: captured.flatMap(({ by }) =>
      by === undefined
        ? []
        : [
            {
              message: `step \`${by.step}\` ${describeAct(by.act)} here`,
              where: placeAt(subject.kit.places, by.act.path),
            },
          ],
    ),
    instead: sayInstead(subject, act, choice),
  }
}

/** `feed lead.tail instead: it is free and passes 20 x 12`; of several ends one that is known to pass. */
export function sayInstead({ fit }: Subject, act: Act, { instead }: EndChoice): string | undefined {
  const sizes = instead.map((end) => ({
    end,
    size: fit.passages.find((one) => one.passage === act.through && one.end === end),
  }))
  const passing = sizes.find(({ size }) => size?.passes === true)
  if (passing?.size !== undefined)
    return `${act.verb} \`${passing.end}\` instead: it is free and passes ${nameOutline(passing.size.opening)}`
  const unknown = sizes.find(({ size }) => size === undefined)
  return unknown === undefined
    ? undefined
    : `${act.verb} \`${unknown.end}\` instead, if it passes: it is free, but has no \`size\``
}

function sayCaptured({ kit }: Subject, { end, isFixed, by }: CapturedEnd): readonly string[] {
  if (by !== undefined) return [`The other end is no help: step \`${by.step}\` ${describeAct(by.act)}.`]
  if (isFixed) return [`The other end, \`${end}\`, is fixed.`]
  const arrival = kit.cables.flatMap(({ ends }) => ends).find(({ id }) => id === end)?.arrival
  return arrival?.state === "connected"
    ? [`The other end, \`${end}\`, is connected to \`${arrival.socket}\` from the start.`]
    : []
}

/**
 * Where a feed that no step has could be written, as advice: with an end that is free when all is done, else before the
 * step that takes an end. Ends that do not pass are not named; undefined when none is left.
 */
export function adviseFeed(
  { kit, fit }: Subject,
  choose: ChooseEnd,
  cableId: string,
  passage: string,
  lastStep: string | undefined,
): string | undefined {
  const cable = kit.cables.find(({ id }) => id === cableId)
  const ends = (cable?.ends ?? []).map(({ id }) => id)
  const doesPass = (end: string): boolean =>
    fit.passages.find((one) => one.passage === passage && one.end === end)?.passes !== false
  const feeds = ends.filter(doesPass).map((end) => ({ end, choice: choose(feedOf(end, passage)) }))
  const write = (end: string): string => `Write \`feed: ${end} through ${passage}\``
  const free = feeds.find(({ end, choice }) => choice?.captured.every((one) => one.end !== end))
  if (free !== undefined)
    return `${write(free.end)}${lastStep === undefined ? "" : ` in step \`${lastStep}\` or a later one`}.`
  for (const { end, choice } of feeds) {
    const by = choice?.captured.find((one) => one.end === end)?.by
    if (by !== undefined) return `${write(end)} before step \`${by.step}\` ${describeAct(by.act)}.`
  }
  return undefined
}

/** A feed that stands in no step. */
function feedOf(end: string, passage: string): Act {
  return {
    verb: "feed",
    path: "",
    target: end,
    instances: [],
    through: passage,
    to: undefined,
    count: undefined,
    minutes: undefined,
    words: undefined,
  }
}
