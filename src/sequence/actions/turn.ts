/** Turns the work to another face. */
import { fact } from "../facts.ts"
import type { Lookup } from "../lookup.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** Needs every placed piece held: a loose one would fall. Ends that another face lies up. */
export const turn: ActionKind = {
  words: (act) => `turns ${nameTarget(act)}` + (act.to === undefined ? "" : ` to \`${act.to}\``),
  facts: (lookup, { target, to }) => ({
    needs: looseable(lookup).map((instance) => ({
      fact: fact("held", instance),
      why: `\`${instance}\` would fall while it is loose`,
    })),
    gives: to === undefined ? [] : [fact("faces", target, to)],
    takes: facesOf(lookup, target)
      .filter((face) => face !== to)
      .map((face) => fact("faces", target, face)),
  }),
}

/** Every face that some act turns the target to. */
export function facesOf(lookup: Lookup, target: string): readonly string[] {
  const faces = lookup.allActs.flatMap((act) =>
    act.verb === "turn" && act.target === target && act.to !== undefined ? [act.to] : [],
  )
  return [...new Set(faces)]
}

function looseable(lookup: Lookup): readonly string[] {
  return lookup.kit.parts
    .filter(({ holdsItself }) => !holdsItself)
    .flatMap(({ id, instances }) =>
      instances.filter((instance) => lookup.heldPieces.has(id) || lookup.heldPieces.has(instance)),
    )
}
