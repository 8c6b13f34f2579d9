/** Judges whether somebody looks at what carries the unit, or the power. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Kit } from "../kit/types.ts"
import { isOrderSound } from "./order-freedom.ts"
import { defineRule } from "./types.ts"

/**
 * Finds steps that tighten a joint by which a heavy unit hangs on its frame, close a tie that holds parts or a unit on a frame, or
 * connect a live cable, and neither say in `result` what is right nor inspect it by name, there or later. A tie whose `until` says
 * when it is tight enough is looked at while it is pulled. `inspect: all` does not say what to look at.
 */
export const inspectionMissingAfterCriticalAct = defineRule({
  id: "inspection-missing-after-critical-act",
  severity: "warning",
  source: "practice: what carries a load or live power is looked at before the work goes on",
  check: ({ kit, sequence }) => {
    if (!isOrderSound({ kit, sequence })) return []
    const critical = listCritical(kit)
    const lastLook = new Map<string, number>()
    for (const [index, { acts }] of kit.steps.entries()) {
      for (const act of acts) if (act.verb === "inspect") lastLook.set(act.target, index)
    }
    return kit.steps.flatMap((step, index): readonly Report[] => {
      if (step.result !== undefined || kit.places[`${step.path}/result`] !== undefined) return []
      if (step.acts.some(({ verb, target }) => verb === "inspect" && target !== "all")) return []
      for (const { verb, target, path } of step.acts) {
        const why = critical.get(`${verb} ${target}`)
        const isSeen = [target, nameOfWhole(target)].some((id) => (lastLook.get(id) ?? -1) >= index)
        if (why === undefined || isSeen) continue
        return [
          {
            message: `step \`${step.id}\` does not say how to see that \`${target}\` is right`,
            where: placeAt(kit.places, step.path),
            why,
            fix: `Write a \`result\` in step \`${step.id}\`, such as what does not move or which lamp is on.`,
            related: [{ message: "the act that matters", where: placeAt(kit.places, path) }],
            subjects: [step.id, target],
          },
        ]
      }
      return []
    })
  },
})

/** Acts that matter, as `tighten foot`, each with why as a sentence. */
function listCritical(kit: Kit): ReadonlyMap<string, string> {
  const heavy = new Map(
    kit.units.flatMap(({ id, massKg, instances }) =>
      massKg === undefined ? [] : [id, ...instances].map((one): readonly [string, number] => [one, massKg]),
    ),
  )
  const hung = findHungParts(kit)
  const joints = kit.joints.flatMap((joint): readonly (readonly [string, string])[] => {
    const pieces = piecesOf(joint)
    const unit = pieces.find((id) => heavy.has(id))
    if (unit === undefined || !pieces.some((id) => hung.has(nameOfWhole(id)))) return []
    return [[`tighten ${joint.id}`, `\`${unit}\`, ${heavy.get(unit)} kg, hangs by joint \`${joint.id}\`.`]]
  })
  const cables = new Set(kit.cables.map(({ id }) => id))
  const ties = kit.ties.flatMap(({ id, holds, frame, until }): readonly (readonly [string, string])[] => {
    const isCarrying =
      frame !== undefined && until === undefined && heavy.size > 0 && !holds.every((one) => cables.has(one))
    return isCarrying ? [[`strap ${id}`, `Tie \`${id}\` holds the work on \`${frame}\`.`]] : []
  })
  const live = kit.cables
    .filter(({ isLive }) => isLive)
    .flatMap(({ id, ends }) =>
      ends.map((end): readonly [string, string] => [`connect ${end.id}`, `Cable \`${id}\` is live.`]),
    )
  return new Map([...joints, ...ties, ...live])
}

/** Parts by which the work hangs on a frame: those that a tie or screw holds on it, and all that are screwed to them. */
function findHungParts(kit: Kit): ReadonlySet<string> {
  const hosts = new Set(kit.units.flatMap(({ id, instances }) => [id, ...instances]))
  const frames = new Set(kit.frames.flatMap(({ id, instances }) => [id, ...instances]))
  const joined = kit.joints.map((joint) => piecesOf(joint).filter((id) => !hosts.has(id)))
  const groups = joined.map((pieces) => pieces.filter((id) => !frames.has(id)).map(nameOfWhole))
  const open = [
    ...kit.ties.flatMap(({ frame, holds }) => (frame === undefined ? [] : holds.map(nameOfWhole))),
    ...joined.flatMap((pieces, index) => (pieces.some((id) => frames.has(id)) ? (groups[index] ?? []) : [])),
  ]
  const groupsOf = new Map<string, (readonly string[])[]>()
  for (const group of groups) {
    for (const id of group) {
      const known = groupsOf.get(id)
      if (known === undefined) groupsOf.set(id, [group])
      else known.push(group)
    }
  }
  const hung = new Set<string>()
  for (let id = open.pop(); id !== undefined; id = open.pop()) {
    if (hung.has(id)) continue
    hung.add(id)
    for (const group of groupsOf.get(id) ?? []) open.push(...group)
  }
  return hung
}

function piecesOf({ through, bore }: Kit["joints"][number]): readonly string[] {
  return [...through, ...bore.owners]
}

/** Copies are called by the name of their part and a dot, ends by that of their cable. */
function nameOfWhole(id: string): string {
  return id.split(".")[0] ?? id
}
