/** Starts the screws of a joint by hand. */

import type { Joint } from "../../kit/joint-types.ts"
import type { Act } from "../../kit/types.ts"
import { inPlaceNeeds, jointAssemblies } from "../assembled.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { pieceHeldBy } from "../own-pieces.ts"
import { isWhole, ownFacts, wholeFacts } from "../partial.ts"
import type { Need } from "../types.ts"
import { cleanNeeds } from "./clean.ts"
import { joinedNeeds, joinedPieces } from "./joined.ts"
import { handNeeds } from "./taken-off.ts"
import type { ActionKind } from "./types.ts"

/** Needs all clamped parts and the parts with the bore in place, the bore empty, and its place within reach. */
export const start: ActionKind = {
  words: ({ target }) => `starts joint \`${target}\``,
  facts: (lookup, act) => {
    const joint = lookup.joints.get(act.target)
    const isAll = isWhole(lookup, act)
    const once = { fact: fact("out", act.target), why: `the screws of \`${act.target}\` can be put in only once` }
    return {
      needs: [
        ...(joint === undefined ? [] : partNeeds(lookup, joint, isAll)),
        ...(joint === undefined ? [] : emptyBoreNeeds(lookup, act, joint)),
        ...ownScrewNeeds(lookup, act),
        ...(joint === undefined
          ? []
          : inPlaceNeeds(
              jointAssemblies(lookup, joint),
              (id) => `\`${act.target}\` holds \`${id}\` where it is placed`,
            )),
        ...joinedNeeds(lookup, act.target, joint),
        ...cleanNeeds(
          lookup,
          [act.target, joint?.bore.id ?? act.target],
          "a thread can be cleaned only before screws are in it",
        ),
        ...handNeeds(lookup, [act.target]),
        ...(isAll ? [once] : []),
      ],
      gives: ownFacts(lookup, act, fact("started", act.target)),
      takes: [fact("out", act.target)],
    }
  },
}

/** A start of some screws only asks for some piece of a part that has several: it may be meant for those in place. */
function partNeeds(lookup: Lookup, joint: Joint, isAll: boolean): readonly Need[] {
  return joinedPieces(joint).flatMap((id) => {
    const isInto = !joint.through.includes(id)
    const why = isInto ? `the screws go into \`${id}\`` : `the screws go through \`${id}\``
    // A unit is at hand from the start, wherever it goes in the end.
    if (isInto && !lookup.partByPiece.has(id)) return []
    const instances = instancesOf(lookup, id)
    if (!isAll && instances.length > 1 && lookup.partByPiece.has(id)) return [{ fact: fact("some", id), why }]
    return instances.map((instance) => ({ fact: fact("on", instance), why }))
  })
}

/** Screws of a unit go back through the piece they hold, into a bore that no screws of the kit sit in. */
function ownScrewNeeds(lookup: Lookup, act: Act): readonly Need[] {
  const own = lookup.ownJoints.get(act.target)
  if (own === undefined || lookup.joints.has(act.target)) return []
  const pieces = pieceHeldBy(lookup.kit.parts, own)?.instances ?? []
  const others = isWhole(lookup, act) ? lookup.kit.joints.filter(({ bore }) => bore.id === own.bore) : []
  return [
    ...pieces.map((piece) => ({ fact: fact("on", piece), why: `the screws \`${own.id}\` go through \`${piece}\`` })),
    ...others.map(({ id }) => ({ fact: fact("out", id), why: `the screws of \`${id}\` sit in the same bore` })),
  ]
}

/** All own screws out of the bore; the first of several goes needs only the first of them out, and so on. */
function emptyBoreNeeds(lookup: Lookup, act: Act, joint: Joint): readonly Need[] {
  return (lookup.ownJointsByBore.get(joint.bore.id) ?? []).flatMap(({ id }) => {
    const outs = wholeFacts(lookup, "unscrew", id, fact("out", id))
    const go = Math.min(actsOn(lookup, "start", joint.id).indexOf(act), outs.length - 1)
    return (isWhole(lookup, act) ? outs : outs.slice(go, go + 1)).map((key) => ({
      fact: key,
      why: `the unit's own screws \`${id}\` still sit in the bore`,
    }))
  })
}
