/** Closes ties or bands. */
import type { Joint } from "../../kit/joint-types.ts"
import type { Act, Tie } from "../../kit/types.ts"
import type { Verb } from "../../spec/types.ts"
import { accessNeeds } from "../access.ts"
import { inPlaceNeeds, tieAssemblies } from "../assembled.ts"
import { curedNeeds } from "../cured.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { isWhole, ownFacts, wholeFacts } from "../partial.ts"
import type { FactKey, Need } from "../types.ts"
import { cleanNeeds } from "./clean.ts"
import { joinedPieces } from "./joined.ts"
import type { ActionKind } from "./types.ts"

/**
 * Needs what the tie holds in place (a cable: connected), the screws within the bundle tight, pads under it stuck on and
 * cured, surfaces clean, and its place within reach.
 */
export const strap: ActionKind = {
  words: ({ target }) => `closes tie \`${target}\``,
  facts: (lookup, act) => {
    const tie = lookup.ties.get(act.target)
    const isAll = isWhole(lookup, act)
    const held = (tie?.holds ?? []).flatMap((id) => instancesOf(lookup, id)).map((id) => fact("held", id))
    return {
      needs: [
        ...(isAll ? [{ fact: fact("untied", act.target), why: `a tie closes only once` }] : []),
        ...(tie === undefined ? [] : tieNeeds(lookup, tie, act, isAll)),
      ],
      gives: [...ownFacts(lookup, act, fact("tied", act.target)), ...held],
      takes: [fact("untied", act.target)],
    }
  },
}

/** Pieces that a tie holds or goes through. */
function tiedPieces(tie: Tie): readonly string[] {
  return [...new Set([...tie.holds, ...(tie.slot === undefined ? [] : [tie.slot.in])])]
}

/** Needs for reaching a tie to close, trim or cut it. */
export function tieAccess(lookup: Lookup, tie: Tie): readonly Need[] {
  const pieces = tiedPieces(tie)
  return accessNeeds(lookup, [tie.id, ...pieces], pieces)
}

function tieNeeds(lookup: Lookup, tie: Tie, act: Act, isAll: boolean): readonly Need[] {
  const pieces = tiedPieces(tie)
  const pad = tie.pad === undefined || actsOn(lookup, "stick", tie.pad).length === 0 ? undefined : tie.pad
  return [
    ...pieces.flatMap((id) => {
      const why = `the tie holds \`${id}\``
      return thereFacts(lookup, id, isAll).map((key) => ({ fact: key, why }))
    }),
    ...(pad === undefined ? [] : wholeFacts(lookup, "stick", pad, fact("stuck", pad))).map((key) => ({
      fact: key,
      why: `the tie presses on the pad \`${pad ?? ""}\``,
    })),
    ...curedNeeds(lookup, pressedPads(lookup, tie), `the tie \`${tie.id}\` presses on it`),
    ...(isAll || actsOn(lookup, "strap", tie.id).at(-1) === act ? bundleNeeds(lookup, tie, pieces) : []),
    ...surfaceNeeds(lookup, tie, pieces),
    ...inPlaceNeeds(tieAssemblies(lookup, tie), (id) => `the tie holds \`${id}\` where it is placed`),
    ...tieAccess(lookup, tie),
  ]
}

/**
 * Screws between pieces of one bundle are tight before it is tied: afterwards they would shift under the tie. Screws that
 * lead out of the bundle are left free, since saddles are often tightened once the tie holds them; so are those that
 * the maker tightens later on purpose (`needs-after`).
 */
function bundleNeeds(lookup: Lookup, tie: Tie, pieces: readonly string[]): readonly Need[] {
  const bundle = new Set(pieces.flatMap((id) => instancesOf(lookup, id)))
  const isWithin = (joint: Joint): boolean => {
    const joined = joinedPieces(joint).flatMap((id) => instancesOf(lookup, id))
    return joined.length > 1 && joined.every((id) => bundle.has(id))
  }
  const names = [...bundle].flatMap((id) => [id, lookup.partByPiece.get(id)?.id ?? id])
  const joints = [...new Set([...new Set(names)].flatMap((id) => lookup.jointsThrough.get(id) ?? []))]
  return joints
    .filter(isWithin)
    .filter(({ id }) => actsOn(lookup, "tighten", id).length > 0 && !isTightenedAfter(lookup, id, tie.id))
    .flatMap(({ id }) =>
      wholeFacts(lookup, "tighten", id, fact("tight", id)).map((key) => ({
        fact: key,
        why: `\`${id}\` joins pieces that the tie holds together; under the tie they cannot settle`,
      })),
    )
}

/** True when a step that tightens the joint says that it comes after one that closes the tie. */
function isTightenedAfter(lookup: Lookup, joint: string, tie: string): boolean {
  const stepsOf = (verb: Verb, target: string): readonly string[] =>
    actsOn(lookup, verb, target).flatMap(({ path }) => path.split("/")[1] ?? [])
  const tightening = new Set(stepsOf("tighten", joint))
  const tying = new Set(stepsOf("strap", tie))
  return lookup.kit.steps.some(
    ({ id, needsAfter }) => tightening.has(id) && needsAfter.some(({ step }) => tying.has(step)),
  )
}

/** Pads that cure between what a tie holds and the frame, and the one it names. */
function pressedPads(lookup: Lookup, tie: Tie): readonly string[] {
  const partsOf = tie.holds.map((id) => lookup.partByPiece.get(id)?.id ?? id)
  return lookup.curingPads
    .filter(({ id, on }) => tie.pad === id || tie.holds.includes(on) || partsOf.includes(on))
    .map(({ id }) => id)
}

/** The frame and the parts that the tie presses on it; a unit may be cleaned at any time. */
function surfaceNeeds(lookup: Lookup, tie: Tie, pieces: readonly string[]): readonly Need[] {
  const parts = pieces.filter((id) => lookup.partByPiece.get(id)?.ownedBy === undefined && lookup.partByPiece.has(id))
  const surfaces = [...(tie.frame === undefined ? [] : [tie.frame]), ...parts]
  return cleanNeeds(lookup, surfaces, `under the closed tie \`${tie.id}\` nothing can be cleaned any more`)
}

/** Facts that a held thing is where it belongs: all pieces of a part (some, for some ties only), all connected ends of a cable. */
function thereFacts(lookup: Lookup, id: string, isAll: boolean): readonly FactKey[] {
  const cable = lookup.cables.get(id) ?? lookup.cableByEnd.get(id)
  if (cable !== undefined)
    return cable.ends
      .filter((end) => actsOn(lookup, "connect", end.id).length > 0)
      .map((end) => fact("connected", end.id))
  const instances = instancesOf(lookup, id)
  if (!isAll && instances.length > 1 && lookup.partByPiece.has(id)) return [fact("some", id)]
  return instances.map((instance) => fact("on", instance))
}
