/** Sticks pads on. */
import type { Pad } from "../../kit/types.ts"
import { accessNeeds } from "../access.ts"
import { restTakes } from "../cured.ts"
import { fact } from "../facts.ts"
import { instancesOf, type Lookup, movedInstances } from "../lookup.ts"
import { isWhole, ownFacts } from "../partial.ts"
import type { Need } from "../types.ts"
import { cleanNeeds } from "./clean.ts"
import type { ActionKind } from "./types.ts"

/** Needs the surface clean when the kit cleans it, and a part that a tie will press on the pad still in the hand. */
export const stick: ActionKind = {
  words: ({ target }) => `sticks pad \`${target}\` on`,
  facts: (lookup, act) => {
    const pad = lookup.pads.get(act.target)
    return {
      needs: [
        ...(isWhole(lookup, act) ? [{ fact: fact("unstuck", act.target), why: `a pad sticks only once` }] : []),
        ...(pad === undefined ? [] : surfaceNeeds(lookup, pad)),
      ],
      gives: [
        ...ownFacts(lookup, act, fact("stuck", act.target)),
        ...movedInstances(lookup, act).map((instance) => fact("on", instance)),
      ],
      takes: [
        fact("unstuck", act.target),
        ...movedInstances(lookup, act).map((instance) => fact("off", instance)),
        ...restTakes(lookup, "stick", act),
      ],
    }
  },
}

function surfaceNeeds(lookup: Lookup, pad: Pad): readonly Need[] {
  const surfaces = [...new Set([pad.id, pad.on, ...instancesOf(lookup, pad.on)])]
  const part = lookup.partByPiece.get(pad.on)
  const isUnder = part !== undefined && part.ownedBy === undefined && liesUnder(lookup, pad, [pad.on, part.id])
  const under = isUnder ? instancesOf(lookup, pad.on) : []
  return [
    ...cleanNeeds(lookup, surfaces, `the pad \`${pad.id}\` sticks only to a clean surface`),
    ...under.map((instance) => ({
      fact: fact("off", instance),
      why: `the pad \`${pad.id}\` lies under \`${instance}\` once that is in place`,
    })),
    // A part may cover a pad on itself: the pad lies on the face that it is put down on.
    ...accessNeeds(lookup, [pad.id], []),
    ...accessNeeds(lookup, [pad.on], [pad.on]),
  ]
}

/**
 * True when a tie presses the pad between one of these pieces and the frame: the pad is on a piece that a tie holds,
 * or the tie names it. Other pads may lie on top, where they can be stuck at any time.
 */
export function liesUnder(lookup: Lookup, pad: Pad, pieces: readonly string[]): boolean {
  return pieces
    .flatMap((piece) => lookup.tiesHolding.get(piece) ?? [])
    .some((tie) => tie.pad === pad.id || pieces.includes(pad.on))
}
