/** Turns the work to another face. */
import type { Act } from "../../kit/types.ts"
import { curedNeeds } from "../cured.ts"
import { fact } from "../facts.ts"
import { instancesOf, type Lookup } from "../lookup.ts"
import { facesOf, fallingPieces } from "../turned.ts"
import type { Need } from "../types.ts"
import { joinedPieces } from "./joined.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind, Facts } from "./types.ts"

/** Needs every placed piece held, since a loose one would fall, and no tie closed round a frame. Ends that another face lies up. */
export const turn: ActionKind = {
  words: (act) => `turns ${nameTarget(act)}` + (act.to === undefined ? "" : ` to \`${act.to}\``),
  facts: (lookup, act) => turnFacts(lookup, act),
}

function turnFacts(lookup: Lookup, act: Act): Facts {
  const { target, to } = act
  return {
    needs: [
      ...fallingPieces(lookup, target).map((instance) => ({
        fact: fact("held", instance),
        why: `\`${instance}\` would fall while it is loose`,
      })),
      ...tiedNeeds(lookup, act),
      ...curedNeeds(lookup, turnedPads(lookup), "it may slip when the work is turned"),
    ],
    gives: to === undefined ? [] : [fact("faces", target, to)],
    takes: facesOf(lookup, target)
      .filter((face) => face !== to)
      .map((face) => fact("faces", target, face)),
  }
}

/**
 * A thing that a tie holds to a frame, by itself or by the pieces that are screwed to it by then, turns no more. Work that is
 * turned as a whole (`all`) may be turned with its frame.
 */
function tiedNeeds(lookup: Lookup, act: Act): readonly Need[] {
  const { target } = act
  if (target === "" || target === "all" || lookup.kit.frames.some(({ id }) => id === target)) return []
  const before = lookup.allActs.slice(0, lookup.allActs.indexOf(act))
  const joined = before.flatMap(({ verb, target: id }) => (verb === "start" ? (lookup.joints.get(id) ?? []) : []))
  const idsOf = (id: string): readonly string[] => [
    id,
    lookup.partByPiece.get(id)?.id ?? id,
    ...instancesOf(lookup, id),
    ...(lookup.assemblies.get(id)?.instances ?? []).flatMap((one) => [one, lookup.partByPiece.get(one)?.id ?? one]),
  ]
  const together = new Set(idsOf(target))
  for (let size = 0; size !== together.size; ) {
    size = together.size
    for (const joint of joined) {
      const pieces = joinedPieces(joint).flatMap(idsOf)
      if (pieces.some((id) => together.has(id))) for (const id of pieces) together.add(id)
    }
  }
  return lookup.kit.ties
    .filter(({ frame, holds }) => frame !== undefined && holds.some((id) => together.has(id)))
    .map(({ id, frame }) => ({
      fact: fact("untied", id),
      why: `the tie \`${id}\` holds \`${target}\` to \`${frame ?? ""}\``,
    }))
}

/** Pads on what is turned; the frame stays where it is. */
function turnedPads(lookup: Lookup): readonly string[] {
  return lookup.curingPads.filter(({ on }) => !lookup.kit.frames.some(({ id }) => id === on)).map(({ id }) => id)
}
