/** What set-aside and discard share. */
import { fact } from "../facts.ts"
import { actsOn, instancesOf, type Lookup } from "../lookup.ts"
import { wholeFacts } from "../partial.ts"
import type { Need } from "../types.ts"

/** Needs that the target no longer sits where it was; `fate` is what becomes of it, as in "before they are kept". */
export function offNeeds(lookup: Lookup, target: string, fate: string): readonly Need[] {
  const isOff = actsOn(lookup, "unscrew", target).length > 0 || instancesOf(lookup, target).length === 0
  if ((lookup.joints.has(target) || lookup.ownJoints.has(target)) && isOff)
    return wholeFacts(lookup, "unscrew", target, fact("out", target))
      .slice(0, 1)
      .map((key) => ({
        fact: key,
        why: `screws come out before they are ${fate}`,
      }))
  const cable = lookup.cables.get(target)
  if (cable !== undefined)
    return cable.ends
      .filter(({ arrival }) => arrival.state === "connected")
      .map(({ id }) => ({ fact: fact("free", id), why: `a cable comes off before it is ${fate}` }))
  return instancesOf(lookup, target).map((id) => ({
    fact: fact("off", id),
    why: `a piece comes off before it is ${fate}`,
  }))
}
