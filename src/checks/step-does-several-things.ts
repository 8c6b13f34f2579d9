/** Judges whether a step does one thing. */
import { placeAt } from "../findings/places.ts"
import type { Kit, Step } from "../kit/types.ts"
import { isOrderSound } from "./order-freedom.ts"
import { defineRule } from "./types.ts"

/**
 * Finds steps that set and fasten pieces of different kinds each by fasteners of its own, or do so and connect cables.
 * Placing, starting and tightening of one joint are one thing; so are equal acts on equal copies, and all of one cable.
 */
export const stepDoesSeveralThings = defineRule({
  id: "step-does-several-things",
  severity: "note",
  source: "practice: one significant piece a step, repeated acts together (Agrawala et al. 2003)",
  check: ({ kit, sequence }) => {
    if (!isOrderSound({ kit, sequence })) return []
    const index = indexKit(kit)
    return kit.steps.flatMap((step) => {
      const things = [...listMounted(index, step), ...listConnected(index, step)]
      if (things.length < 2) return []
      const [first = "", second = ""] = things
      const more = things.length > 2 ? ` and ${things.length - 2} more` : ""
      return [
        {
          message: `step \`${step.id}\` does ${things.length} things`,
          where: placeAt(kit.places, step.path),
          why: `It ${first} and ${second}${more}. One thing a step is easier to follow and to check.`,
          fix: "Write a step for each.",
          subjects: [step.id],
        },
      ]
    })
  },
})

type Index = {
  readonly joints: ReadonlyMap<string, Kit["joints"][number]>
  readonly ties: ReadonlyMap<string, Kit["ties"][number]>
  readonly mirrors: ReadonlyMap<string, string | undefined>
  /** Cable of each end. */
  readonly cables: ReadonlyMap<string, string>
}

function indexKit({ joints, ties, parts, cables }: Kit): Index {
  return {
    joints: new Map(joints.map((joint) => [joint.id, joint])),
    ties: new Map(ties.map((tie) => [tie.id, tie])),
    mirrors: new Map(parts.map(({ id, mirrors }) => [id, mirrors])),
    cables: new Map(cables.flatMap(({ id, ends }) => ends.map((end) => [end.id, id]))),
  }
}

/**
 * What the step puts in its place and fastens there, pieces that share a joint or tie together. A piece is told by what
 * clamps it; one that only takes the thread goes with what is screwed to it.
 */
function listMounted(index: Index, { acts }: Step): readonly string[] {
  const fastened = [
    ...new Set(
      acts.flatMap(({ verb, target }) => (verb === "start" || verb === "tighten" || verb === "strap" ? [target] : [])),
    ),
  ]
  const joints = fastened.flatMap((id) => index.joints.get(id) ?? [])
  const ties = fastened.flatMap((id) => index.ties.get(id) ?? [])
  const groups: { readonly parts: Set<string>; readonly by: Set<string> }[] = []
  for (const { verb, target, instances } of acts) {
    if (verb !== "place") continue
    const names = new Set([target, ...instances, ...[target, ...instances].map(partOf)])
    const isOne = (id: string): boolean => names.has(id) || names.has(partOf(id))
    const clamping = [
      ...joints.filter(({ through }) => through.some(isOne)),
      ...ties.filter(({ holds }) => holds.some(isOne)),
    ]
    const by = (clamping.length > 0 ? clamping : joints.filter(({ bore }) => bore.owners.some(isOne))).map(
      ({ id }) => id,
    )
    if (by.length === 0) continue
    const kind = index.mirrors.get(partOf(target)) ?? partOf(target)
    const known = groups.find((group) => group.parts.has(kind) || by.some((id) => group.by.has(id)))
    if (known === undefined) groups.push({ parts: new Set([kind]), by: new Set(by) })
    else {
      known.parts.add(kind)
      for (const id of by) known.by.add(id)
    }
  }
  return groups.map(({ parts }) => `sets ${[...parts].map((part) => `\`${part}\``).join(" with ")}`)
}

/** Copies are called by the name of their part and a dot. */
function partOf(id: string): string {
  return id.split(".")[0] ?? id
}

/** Cables of which the step connects an end. */
function listConnected({ cables }: Index, { acts }: Step): readonly string[] {
  const connected = acts.flatMap(({ verb, target }) => (verb === "connect" ? (cables.get(target) ?? []) : []))
  return [...new Set(connected)].map((id) => `connects \`${id}\``)
}
