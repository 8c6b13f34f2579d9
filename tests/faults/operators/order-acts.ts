/** Single acts in the wrong order: screws, parts, pads, ties, covers, inspection. */
import type { Kit } from "../../../src/kit/types.ts"
import type { Verb } from "../../../src/spec/types.ts"
import { instancesOf, meet, nameAct, pairsOf, partOf, touchedBy, type Written, withVerb, writtenActs } from "../acts.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { addAct, type Draft, moveAct, pathNow } from "../draft.ts"
import { type Mark, marks, type Operator, type Plant } from "../plant.ts"

/** The second act of a pair is moved before the first, which it needs; it must be told there. */
function earlier(
  name: string,
  fault: string,
  isPair: (kit: Kit, first: Written, second: Written) => boolean,
): Operator {
  return {
    name,
    faults: [fault],
    find: (variant) =>
      pairsOf(writtenActs(variant), (first, second) => isPair(variant.proof.kit, first, second)).map(
        ([first, second]): Plant => ({
          site: `${nameAct(second)} before ${nameAct(first)}`,
          edit: (draft) => moveAct(draft, second.origin, "before", first.origin),
          // Where `needs-after` holds the two steps the other way round, no order is right.
          expect: (draft) => [
            [
              ...marks("needs-something-later", pathNow(draft, second.origin)),
              ...marks("order-is-circular", ...declaredBetween(variant, first.step, second.step)),
            ],
          ],
          allow: () => declaredAfter(variant, first.step),
        }),
      ),
  }
}

/** The `needs-after` of one step that names the other. */
function declaredBetween({ proof }: CleanVariant, from: string, to: string): readonly string[] {
  const isDeclared = proof.sequence.links.some(
    (link) => link.kind === "declared" && link.from === from && link.to === to,
  )
  return isDeclared ? [`steps/${to}/needs-after`] : []
}

/** Where a step is declared to come after the one that the act was moved to, no order of the steps is right any more. */
function declaredAfter({ proof }: CleanVariant, step: string): readonly Mark[] {
  const later = proof.sequence.links.filter((link) => link.kind === "declared" && link.from === step)
  return marks("order-is-circular", ...later.map(({ to }) => `steps/${to}/needs-after`))
}

const isOf = ({ act }: Written, ...verbs: readonly Verb[]): boolean => verbs.includes(act.verb)

/** Screws are tightened before they are started. */
const tightenBeforeStart = earlier(
  "tighten-before-start",
  "F09",
  (_, first, second) => isOf(first, "start") && isOf(second, "tighten") && first.act.target === second.act.target,
)

/** A joint is aligned when it is tight. */
const alignAfterTighten = earlier(
  "tighten-before-align",
  "F10",
  (kit, first, second) =>
    isOf(first, "align") &&
    isOf(second, "tighten") &&
    [second.act.target, ...(jointOf(kit, second)?.through ?? [])].some((id) => meet(kit, id, first.act.target)),
)

/** Screws are started before a part that they go through, or into, is there. */
const startBeforePlace = earlier("start-before-place", "F11", (kit, first, second) => {
  const joint = jointOf(kit, second)
  const pieces = joint === undefined ? [] : [...joint.through, ...joint.bore.owners.filter((id) => partOf(kit, id))]
  return isOf(first, "place") && isOf(second, "start") && pieces.some((id) => meet(kit, id, first.act.target))
})

/** Screws are started while the unit's own still sit in the bore. */
const startBeforeUnscrew = earlier("start-before-unscrew", "F21", (kit, first, second) => {
  const own = kit.ownJoints.find(({ id }) => id === first.act.target)
  return (
    isOf(first, "unscrew") &&
    isOf(second, "start") &&
    own?.bore !== undefined &&
    jointOf(kit, second)?.bore.id === own.bore
  )
})

/** A piece is taken off before its screws are out. */
const removeBeforeUnscrew = earlier("remove-before-unscrew", "F21", (kit, first, second) => {
  const piece = partOf(kit, second.act.target)
  return (
    isOf(first, "unscrew") &&
    isOf(second, "remove") &&
    first.act.target === `${piece?.ownedBy ?? ""}.${piece?.id ?? ""}`
  )
})

/** A pad is stuck on before its surface is clean. */
const stickBeforeClean = earlier("stick-before-clean", "F13", (kit, first, second) => {
  const pad = kit.pads.find(({ id }) => id === second.act.target)
  return isOf(first, "clean") && isOf(second, "stick") && pad !== undefined && meet(kit, first.act.target, pad.on)
})

/** A part is put on before the pad that comes under it. */
const placeBeforeStick = earlier("place-before-stick", "F12", (kit, first, second) => {
  const pad = kit.pads.find(({ id }) => id === first.act.target)
  const isPressed = kit.ties.some((tie) => tie.holds.some((id) => pad !== undefined && meet(kit, id, pad.on)))
  return (
    isOf(first, "stick") &&
    isOf(second, "place") &&
    isPressed &&
    pad !== undefined &&
    meet(kit, pad.on, second.act.target)
  )
})

/** A tie is closed before what it holds is in place, connected, or its pad stuck on. */
const strapBeforeHeld = earlier("strap-before-held", "F14", (kit, first, second) => {
  const tie = kit.ties.find(({ id }) => id === second.act.target)
  if (!isOf(second, "strap") || tie === undefined) return false
  if (isOf(first, "stick")) return tie.pad === first.act.target
  const held = isOf(first, "connect") ? touchedBy(kit, first.act).slice(0, 2) : [first.act.target]
  return isOf(first, "place", "connect") && held.some((id) => tie.holds.some((one) => meet(kit, one, id)))
})

/** A tie is closed before the screws of what it holds are tight. */
const strapBeforeTight = earlier("strap-before-tight", "F14", (kit, first, second) => {
  const tie = kit.ties.find(({ id }) => id === second.act.target)
  const joint = jointOf(kit, first)
  const pieces = [...(joint?.through ?? []), ...(joint?.bore.owners ?? [])].filter((id) => partOf(kit, id))
  return (
    isOf(first, "tighten") &&
    isOf(second, "strap") &&
    pieces.some((piece) => (tie?.holds ?? []).some((id) => meet(kit, id, piece)))
  )
})

/** The tail of a tie is cut before the tie is closed. */
const trimBeforeStrap = earlier(
  "trim-before-strap",
  "K02",
  (_, first, second) => isOf(first, "strap") && isOf(second, "trim") && first.act.target === second.act.target,
)

/** The final inspection comes before the last work. */
const inspectTooEarly = earlier(
  "inspect-before-work",
  "F18",
  (_, first, second) =>
    second.act.verb === "inspect" && second.act.target === "all" && isOf(first, "tighten", "strap", "connect", "close"),
)

/** What came off is put into its bag before it is off. */
const keepBeforeOff = earlier(
  "set-aside-before-off",
  "K03",
  (_, first, second) =>
    isOf(first, "unscrew") && isOf(second, "set-aside", "discard") && first.act.target === second.act.target,
)

/** A cover is put on, or closed, before work behind it. */
function coverFirst(name: string, fault: string, ...verbs: readonly Verb[]): Operator {
  return {
    name,
    faults: [fault],
    find: (variant) => {
      const { kit } = variant.proof
      const acts = writtenActs(variant)
      return pairsOf(acts, (behind, cover) => verbs.includes(behind.act.verb) && hides(kit, cover, behind)).flatMap(
        ([behind, cover]): readonly Plant[] => {
          // Not before other acts on the cover itself: that would be another fault.
          const isAmidst = acts.some(
            (one) =>
              one.order >= behind.order && one.order < cover.order && meet(kit, one.act.target, cover.act.target),
          )
          const hidden = acts.filter(
            (one) => one.order >= behind.order && one.order < cover.order && hides(kit, cover, one),
          )
          if (isAmidst) return []
          return [
            {
              site: `${nameAct(cover)} before ${nameAct(behind)}`,
              edit: (draft) => moveAct(draft, cover.origin, "before", behind.origin),
              expect: (draft) => [marks("taken-away-before", ...hidden.map(({ origin }) => pathNow(draft, origin)))],
            },
          ]
        },
      )
    },
  }
}

const coverBeforeCable = coverFirst("cover-before-cable", "F02", "connect", "disconnect", "feed")
const coverBeforeTie = coverFirst("cover-before-tie", "F03", "strap", "trim")
const coverBeforeScrew = coverFirst("cover-before-screw", "F65", "start", "tighten", "unscrew")
const coverBeforePart = coverFirst("cover-before-part", "F02", "place", "remove", "stick", "clean")

/** True when the first act puts something over what the second has its hands on. */
function hides(kit: Kit, cover: Written, behind: Written): boolean {
  if (!isOf(cover, "place", "close")) return false
  const part = partOf(kit, cover.act.target)
  // A hinged part is put on open.
  if (part === undefined || (cover.act.verb === "place" && part.opens)) return false
  const joint = jointOf(kit, behind)
  const isOwn = joint !== undefined && [...joint.through, ...joint.bore.owners].some((id) => meet(kit, id, part.id))
  return !isOwn && touchedBy(kit, behind.act).some((id) => part.covers.includes(id))
}

/** The work is turned while a loose part lies on it. */
const turnLoose: Operator = {
  name: "turn-with-loose-part",
  faults: ["F20"],
  find: (variant) => {
    const { kit } = variant.proof
    return withVerb(writtenActs(variant), "place").flatMap((placed): readonly Plant[] => {
      const part = partOf(kit, placed.act.target)
      if (part === undefined || part.holdsItself || !isFastened(kit, part.id)) return []
      let added = ""
      return [
        {
          site: nameAct(placed),
          edit: (draft) => {
            added = addAct(draft, "turn: all to back", "behind", placed.origin)
          },
          expect: (draft) => [marks("needs-something-later", pathNow(draft, added))],
        },
      ]
    })
  },
}

function isFastened(kit: Kit, part: string): boolean {
  const isHeld = (ids: readonly string[]): boolean => ids.some((id) => meet(kit, id, part))
  return kit.joints.some(({ through }) => isHeld(through)) || kit.ties.some(({ holds }) => isHeld(holds))
}

/** An act that can be done only once is written twice. */
const doAgain: Operator = {
  name: "do-again",
  faults: ["F23"],
  find: (variant) =>
    withVerb(
      writtenActs(variant),
      "place",
      "strap",
      "stick",
      "start",
      "unscrew",
      "remove",
      "feed",
      "connect",
      "close",
    ).map((twice): Plant => copyOf(twice, (draft, added) => marks("taken-away-before", pathNow(draft, added)))),
}

function copyOf(act: Written, expect: (draft: Draft, added: string) => readonly Mark[]): Plant {
  let added = ""
  return {
    site: nameAct(act),
    edit: (draft) => {
      added = addAct(draft, textOf(draft, act.origin), "behind", act.origin)
    },
    expect: (draft) => [expect(draft, added)],
  }
}

/** A part is taken off before it is put on. */
const removeBeforePlace: Operator = {
  name: "remove-what-is-off",
  faults: ["F23"],
  find: (variant) => {
    const { kit } = variant.proof
    return withVerb(writtenActs(variant), "place").flatMap((placed): readonly Plant[] => {
      const part = partOf(kit, placed.act.target)
      if (part === undefined || part.ownedBy !== undefined || instancesOf(kit, placed.act.target).length === 0)
        return []
      let added = ""
      return [
        {
          site: nameAct(placed),
          edit: (draft) => {
            added = addAct(draft, `remove: ${placed.act.target}`, "before", placed.origin)
          },
          expect: (draft) => [marks("needs-something-later", pathNow(draft, added))],
        },
      ]
    })
  },
}

function textOf(draft: Draft, origin: string): string {
  for (const steps of draft.steps.values())
    for (const { list } of steps) for (const act of list) if (act.origin === origin) return act.text
  throw new Error(`no act ${origin}`)
}

function jointOf(kit: Kit, { act }: Written): Kit["joints"][number] | undefined {
  return kit.joints.find(({ id }) => id === act.target)
}

/** All operators on the order of single acts. */
export const actOrderOperators: readonly Operator[] = [
  tightenBeforeStart,
  alignAfterTighten,
  startBeforePlace,
  startBeforeUnscrew,
  removeBeforeUnscrew,
  stickBeforeClean,
  placeBeforeStick,
  strapBeforeHeld,
  strapBeforeTight,
  trimBeforeStrap,
  inspectTooEarly,
  keepBeforeOff,
  coverBeforeCable,
  coverBeforeTie,
  coverBeforeScrew,
  coverBeforePart,
  turnLoose,
  doAgain,
  removeBeforePlace,
]
