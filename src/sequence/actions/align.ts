/** Brings a part or a joint into line while its screws are loose. */
import { fact } from "../facts.ts"
import { instancesOf } from "../lookup.ts"
import { wholeFacts } from "../partial.ts"
import { nameTarget } from "./name-target.ts"
import type { ActionKind } from "./types.ts"

/** A joint must be started and loose; a part must be in place and every joint through it loose. */
export const align: ActionKind = {
  words: (act) => `aligns ${nameTarget(act)}`,
  facts: (lookup, { target, instances: moved }) => {
    const why = `tight screws leave nothing to align`
    // A part may have the name of a joint.
    const joint = moved.length > 0 ? undefined : lookup.joints.get(target)
    const instances = joint === undefined ? instancesOf(lookup, target) : []
    const part = lookup.partByPiece.get(target)
    const joints = [target, ...(part === undefined ? [] : [part.id])].flatMap(
      (id) => lookup.jointsThrough.get(id) ?? [],
    )
    const started = joint === undefined ? [] : wholeFacts(lookup, "start", target, fact("started", target))
    return {
      needs: [
        ...started.map((key) => ({ fact: key, why: `the screws hold \`${target}\` while it is aligned` })),
        ...instances.map((instance) => ({ fact: fact("on", instance), why: `only what is in place can be aligned` })),
        ...[...new Set([joint, ...joints])].flatMap((one) =>
          one === undefined ? [] : [{ fact: fact("loose", one.id), why }],
        ),
      ],
      gives: target === "" ? [] : [fact("aligned", target)],
      takes: [],
    }
  },
}
