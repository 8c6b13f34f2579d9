/** What is true when the box is opened, before the acts of `arrives`. */
import { fact } from "./facts.ts"
import { actsOn, type Lookup } from "./lookup.ts"
import { wholeFacts } from "./partial.ts"
import { cablesOf, isThreadedOnArrival, passagesOf } from "./threading.ts"
import { facesOf } from "./turned.ts"
import type { FactKey } from "./types.ts"

/** Facts true before the first step: what stands, hangs, carries power or runs through on arrival. */
export function arrivalFacts(lookup: Lookup): readonly FactKey[] {
  const { kit } = lookup
  const facts = new Set<FactKey>()
  const placedLater = findPlacedLater(lookup)
  const add = (...keys: readonly FactKey[]): void => {
    for (const key of keys) facts.add(key)
  }
  for (const { id, owner } of kit.instances) {
    const part = lookup.partByPiece.get(id)
    const isThere = owner === "part" ? part?.ownedBy !== undefined : owner !== "pad" && !placedLater.has(id)
    add(fact(isThere ? "on" : "off", id), fact("held", id))
    if (isThere && part !== undefined) add(fact("some", part.id))
    if (lookup.leaves.has(id)) add(fact(isThere ? "shut" : "clear", id))
  }
  for (const { id } of kit.joints) add(fact("out", id), fact("loose", id))
  for (const { id } of kit.ownJoints)
    add(
      ...wholeFacts(lookup, "start", id, fact("started", id)),
      ...wholeFacts(lookup, "tighten", id, fact("tight", id)),
    )
  for (const { id } of kit.sockets) add(fact("empty", id))
  for (const cable of kit.cables) {
    for (const { id, arrival } of cable.ends) {
      if (arrival.state === "free") add(fact("free", id))
      if (arrival.state !== "connected") continue
      add(fact("connected", id))
      facts.delete(fact("empty", arrival.socket))
    }
    for (const id of passagesOf(lookup, cable))
      add(fact(isThreadedOnArrival(lookup, cable, id) ? "thru" : "outside", cable.id, id))
  }
  for (const { id, clamps } of kit.passages) {
    if (clamps === undefined) continue
    const isRound = cablesOf(lookup, id).some((cable) => isThreadedOnArrival(lookup, cable, id))
    // One that is loosened before anything tightens it comes tight.
    const isLoosened = lookup.allActs.find(({ verb, target }) => target === id && (verb === "open" || verb === "close"))
    add(fact(isRound || isLoosened?.verb === "open" ? "clamped" : "unclamped", id))
  }
  for (const { id } of kit.assemblies) add(fact("off", id))
  for (const { id } of kit.ties) add(fact("untied", id))
  for (const { id } of kit.pads) add(fact("unstuck", id))
  for (const { verb, target } of lookup.allActs) if (verb === "discard") add(fact("at-hand", target))
  // Nothing that is not on yet waits to cure.
  for (const { id, verb } of lookup.rests.byKey.values()) if (verb !== "isolate") add(fact("cured", id))
  for (const id of lookup.live) add(fact("power-on", id))
  // Until the first turn the work lies on the face that this shows; its other faces are within reach.
  for (const target of lookup.turned) {
    const first = actsOn(lookup, "turn", target)[0]?.to
    for (const face of facesOf(lookup, target)) if (face !== first) add(fact("faces", target, face))
  }
  return [...facts]
}

/** Units that are put in their place by an act, and not taken off before, stand elsewhere on arrival. */
function findPlacedLater(lookup: Lookup): ReadonlySet<string> {
  const { kit, leftOut } = lookup
  const first = new Map<string, boolean>()
  for (const { verb, instances } of lookup.allActs)
    if (verb === "place" || verb === "remove")
      for (const instance of instances) if (!first.has(instance)) first.set(instance, verb === "place")
  const placed = [...first].flatMap(([instance, isPlaced]) => (isPlaced ? [instance] : []))
  // An act of placing that could not be read may have been meant for a unit.
  const meant = leftOut.has("place") ? kit.units.filter(({ path }) => kit.told.includes(path)) : []
  return new Set([...placed, ...meant.flatMap(({ instances }) => instances.filter((one) => !first.has(one)))])
}
