/** Tools the buyer needs, derived from drives, nuts, torques and ties, and those the maker declares. */
import type { Fastener } from "../fasteners/types.ts"
import type { Kit, Range } from "../kit/types.ts"
import type { JointFit, ToolNeed } from "./types.ts"

/** Computes one need for each drive and size, one torque driver, side cutters for ties, then the declared tools. */
export function computeTools(kit: Kit, joints: readonly JointFit[]): readonly ToolNeed[] {
  const needs = new Map<string, ToolNeed>()
  const put = (need: Omit<ToolNeed, "uses">, use: string): void => {
    const earlier = needs.get(need.id)
    const uses = [...new Set([...(earlier?.uses ?? []), use])]
    needs.set(need.id, { ...need, torqueNm: joinRanges(earlier?.torqueNm, need.torqueNm), uses })
  }
  for (const joint of kit.joints) {
    for (const need of driversOf(joint.fastener)) put(need, joint.id)
    if (joint.bore.kind === "nut" && joint.bore.fastener !== undefined) {
      for (const need of driversOf(joint.bore.fastener)) put(need, joint.id)
    }
  }
  const unscrewed = new Set(
    kit.steps.flatMap(({ acts }) => acts.flatMap(({ verb, target }) => (verb === "unscrew" ? [target] : []))),
  )
  for (const own of kit.ownJoints.filter(({ id }) => unscrewed.has(id))) {
    for (const need of driversOf(own.fastener)) put(need, own.id)
  }
  for (const { joint, torque } of joints) {
    const { valueNm } = torque
    if (valueNm === undefined) continue
    put({ id: "torque-driver", kind: "torque-driver", size: "", torqueNm: { min: valueNm, max: valueNm } }, joint)
  }
  const trimmed = kit.steps.some(({ acts }) => acts.some(({ verb }) => verb === "trim"))
  for (const tie of kit.ties.filter(({ kind }) => kind === "tie" && trimmed)) {
    put({ id: "side-cutters", kind: "side-cutters", size: "", torqueNm: undefined }, tie.id)
  }
  const declared = kit.tools
    .filter(({ id }) => !needs.has(id))
    .map(({ id }): ToolNeed => {
      const uses = kit.steps.filter(({ tools }) => tools.includes(id)).map((step) => step.id)
      return { id, kind: "declared", size: "", torqueNm: undefined, uses }
    })
  return [...needs.values(), ...declared]
}

function driversOf({ drive }: Fastener): readonly Omit<ToolNeed, "uses">[] {
  if (drive === undefined) return []
  const size = drive.size.toLowerCase()
  const torqueNm = undefined
  switch (drive.kind) {
    case "hexagon-socket":
      return [{ id: `hex-key-${size}`, kind: "hex-key", size: drive.size, torqueNm }]
    case "hexagon":
      return [{ id: `hex-wrench-${size}`, kind: "wrench", size: drive.size, torqueNm }]
    default:
      return [{ id: `${drive.kind}-${size}`, kind: drive.kind, size: drive.size, torqueNm }]
  }
}

function joinRanges(one: Range | undefined, other: Range | undefined): Range | undefined {
  if (one === undefined || other === undefined) return one ?? other
  return { min: Math.min(one.min, other.min), max: Math.max(one.max, other.max) }
}
