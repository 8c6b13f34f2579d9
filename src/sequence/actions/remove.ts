/** Takes pieces off. */
import type { Assembly } from "../../kit/types.ts"
import type { Verb } from "../../spec/types.ts"
import { accessNeeds } from "../access.ts"
import { holdersOf } from "../assembled.ts"
import { restEnds } from "../cured.ts"
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup, movedInstances } from "../lookup.ts"
import { screwsHolding } from "../own-pieces.ts"
import { wholeFacts } from "../partial.ts"
import { ownerUnit, powerNeeds } from "../power.ts"
import type { FactKey, Need } from "../types.ts"
import { tieAccess } from "./strap.ts"
import type { ActionKind, Facts } from "./types.ts"

/** Needs the piece in place and reachable, its screws out, its ties cut, and no power on a unit it belongs to. Cuts a tie. */
export const remove: ActionKind = {
  words: ({ target }) => `removes \`${target}\``,
  facts: (lookup, act) => {
    if (lookup.ties.has(act.target) && movedInstances(lookup, act).length === 0) {
      const tie = lookup.ties.get(act.target)
      return {
        needs: [
          { fact: fact("tied", act.target), why: `only a closed tie can be cut` },
          ...(tie === undefined ? [] : tieAccess(lookup, tie)),
        ],
        gives: [fact("untied", act.target)],
        takes: [
          ...allGoes(lookup, "strap", act.target, fact("tied", act.target)),
          ...allGoes(lookup, "trim", act.target, fact("trimmed", act.target)),
        ],
      }
    }
    const instances = movedInstances(lookup, act)
    const assembly = lookup.assemblies.get(act.target)
    if (assembly !== undefined && instances.length === 0) return removeAssembly(lookup, assembly)
    const isPad = lookup.pads.has(act.target) && !lookup.partByPiece.has(act.target)
    return {
      needs: instances.flatMap((instance) => {
        const ids = [instance, lookup.partByPiece.get(instance)?.id ?? instance]
        const joints = [...new Set(ids.flatMap((id) => lookup.jointsThrough.get(id) ?? []))]
        return [
          { fact: fact("on", instance), why: `only what is in place can be taken off` },
          ...accessNeeds(lookup, ids, ids),
          ...joints.map(({ id }) => ({ fact: fact("out", id), why: `the screws of \`${id}\` hold \`${instance}\`` })),
          ...ids
            .flatMap((id) => lookup.tiesHolding.get(id) ?? [])
            .map(({ id }) => ({ fact: fact("untied", id), why: `the tie \`${id}\` holds \`${instance}\`` })),
          ...ownScrewNeeds(lookup, instance),
          ...powerNeeds(lookup, [ownerUnit(lookup, instance)]),
        ]
      }),
      gives: [
        ...(isPad ? [fact("unstuck", act.target), ...restEnds(lookup, "stick", act.target)] : []),
        ...instances.flatMap((instance) => [
          fact("off", instance),
          fact("held", instance),
          ...(lookup.leaves.has(instance) ? [fact("clear", instance)] : []),
        ]),
      ],
      takes: [
        ...(isPad ? padTakes(lookup, act.target) : []),
        ...instances.flatMap((instance) => [
          fact("on", instance),
          ...(lookup.leaves.has(instance) ? [fact("open", instance), fact("shut", instance)] : []),
        ]),
      ],
    }
  },
}

/** A group comes off as a whole once the ties and screws that hold it where it is are off. */
function removeAssembly(lookup: Lookup, assembly: Assembly): Facts {
  const { id, instances } = assembly
  const { ties, joints } = holdersOf(lookup, assembly)
  return {
    needs: [
      { fact: fact("on", id), why: `only what is in place can be taken off` },
      ...accessNeeds(lookup, [id], instances),
      ...ties.map((tie) => ({ fact: fact("untied", tie.id), why: `the tie \`${tie.id}\` holds \`${id}\`` })),
      ...joints.map((joint) => ({ fact: fact("out", joint.id), why: `the screws of \`${joint.id}\` hold \`${id}\`` })),
    ],
    gives: [fact("off", id)],
    takes: [fact("on", id)],
  }
}

/** The fact that something was done, and those of each go where it was done in several. */
function allGoes(lookup: Lookup, verb: Verb, target: string, base: FactKey): readonly FactKey[] {
  const goes = actsOn(lookup, verb, target).map((_, index) => (index === 0 ? base : `${base}#${index + 1}`))
  return goes.length === 0 ? [base] : goes
}

/** An adhesive pad that is pulled off leaves glue, so its surface is no longer clean. */
function padTakes(lookup: Lookup, id: string): readonly FactKey[] {
  const pad = lookup.pads.get(id)
  const surfaces = pad?.isAdhesive === true ? [pad.id, pad.on, ...instancesOf(lookup, pad.on)] : []
  return [...allGoes(lookup, "stick", id, fact("stuck", id)), ...surfaces.map((surface) => fact("clean", surface))]
}

function ownScrewNeeds(lookup: Lookup, instance: string): readonly Need[] {
  const own = screwsHolding(lookup.ownJoints, lookup.partByPiece.get(instance))
  if (own === undefined) return []
  return wholeFacts(lookup, "unscrew", own.id, fact("out", own.id)).map((key) => ({
    fact: key,
    why: `the screws \`${own.id}\` hold \`${instance}\``,
  }))
}
