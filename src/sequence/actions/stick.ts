/** Sticks pads on. */
import type { Pad } from "../../kit/types.ts"
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup, movedInstances } from "../lookup.ts"
import { isWhole, ownFacts } from "../partial.ts"
import type { Need } from "../types.ts"
import type { ActionKind } from "./types.ts"

/** Needs the surface clean when the kit cleans it, and a part of the box still in the hand: its pad lies under it later. */
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
      takes: [fact("unstuck", act.target), ...movedInstances(lookup, act).map((instance) => fact("off", instance))],
    }
  },
}

function surfaceNeeds(lookup: Lookup, pad: Pad): readonly Need[] {
  const part = lookup.partByPiece.get(pad.on)
  const surfaces = [...new Set([pad.id, pad.on, ...instancesOf(lookup, pad.on)])]
  return [
    ...surfaces
      .filter((id) => actsOn(lookup, "clean", id).length > 0)
      .map((id) => ({ fact: fact("clean", id), why: `the pad \`${pad.id}\` sticks only to a clean surface` })),
    ...(part === undefined || part.ownedBy !== undefined ? [] : instancesOf(lookup, pad.on)).map((instance) => ({
      fact: fact("off", instance),
      why: `the pad \`${pad.id}\` lies under \`${instance}\` once that is in place`,
    })),
    ...accessNeeds(lookup, [pad.id, pad.on], [pad.on]),
  ]
}
