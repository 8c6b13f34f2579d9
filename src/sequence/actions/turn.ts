/** Turns the work to another face. */
import { curedNeeds } from "../cured.ts"
import { fact } from "../facts.ts"
import type { Lookup } from "../lookup.ts"
import { facesOf, fallingPieces } from "../turned.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** Needs every placed piece held: a loose one would fall. Ends that another face lies up. */
export const turn: ActionKind = {
  words: (act) => `turns ${nameTarget(act)}` + (act.to === undefined ? "" : ` to \`${act.to}\``),
  facts: (lookup, { target, to }) => ({
    needs: [
      ...fallingPieces(lookup, target).map((instance) => ({
        fact: fact("held", instance),
        why: `\`${instance}\` would fall while it is loose`,
      })),
      ...curedNeeds(lookup, turnedPads(lookup), "it may slip when the work is turned"),
    ],
    gives: to === undefined ? [] : [fact("faces", target, to)],
    takes: facesOf(lookup, target)
      .filter((face) => face !== to)
      .map((face) => fact("faces", target, face)),
  }),
}

/** Pads on what is turned; the frame stays where it is. */
function turnedPads(lookup: Lookup): readonly string[] {
  return lookup.curingPads.filter(({ on }) => !lookup.kit.frames.some(({ id }) => id === on)).map(({ id }) => id)
}
