/** What cannot be as it is written in a described shape: walls, corners, holes that miss it. */
import { isPointInside } from "../solids/index.ts"
import type { Mesh, Shape, ShapeHole, TubeProfile, Vec3 } from "../solids/types.ts"
import { mm } from "../units/print.ts"

/** One fault; `field` is the key below the shape that it concerns. */
export type ShapeFault = {
  readonly id: "shape-impossible" | "hole-misses-shape"
  readonly severity: "error" | "warning"
  readonly field: readonly string[]
  readonly told: string
  readonly why: string
  readonly fix: string
}

/** How far a mouth may lie below the face that it is meant to be in. */
const belowFaceMm = 0.1

/** Gives the sizes of a shape that exclude each other. */
export function findImpossibleSizes(shape: Shape): readonly ShapeFault[] {
  switch (shape.kind) {
    case "box":
      return []
    case "plate":
      return cornerFault(shape.cornerMm, shape.sizeMm[0], shape.sizeMm[1])
    case "cylinder":
      return shape.boreMm < shape.diameterMm
        ? []
        : [impossible("bore", `is ${mm(shape.boreMm)} wide in a cylinder of ${mm(shape.diameterMm)}`)]
    case "tube":
      return [...wallFault(shape.profile, shape.wallMm), ...profileFault(shape.profile)]
    case "saddle":
      return profileFault(shape.seat)
  }
}

/**
 * Gives the holes of a shape that take nothing away from it, and blind ones that begin inside the material instead of
 * in a face. `mesh` is the finished shape.
 */
export function findMissingHoles(shape: Shape, mesh: Mesh): readonly ShapeFault[] {
  if (!("holes" in shape)) return []
  return shape.holes.flatMap((hole, index): readonly ShapeFault[] => {
    const field = ["holes", String(index)]
    const size = hole.sizeMm === undefined ? mm(hole.diameterMm ?? 0) : hole.sizeMm.map(mm).join(" x ")
    const common = { id: "hole-misses-shape", severity: "warning", field } as const
    if (!meets(hole, shape.sizeMm)) {
      const told = `hole ${index + 1} of ${size} lies beside the shape`
      const why = `the shape goes from 0, 0, 0 to ${shape.sizeMm.map(mm).join(", ")}`
      return [{ ...common, told, why, fix: "give the middle of its mouth, in the coordinates of the shape" }]
    }
    const before: Vec3 = [0, 1, 2].map((axis) => (hole.at[axis] ?? 0) - (hole.along[axis] ?? 0) * belowFaceMm) as [
      number,
      number,
      number,
    ] // Three numbers by construction.
    if (hole.depthMm === 0 || !isPointInside(mesh, before)) return []
    const told = `hole ${index + 1} of ${size} begins inside the material`
    const why = "a blind hole begins in a face, at the middle of its mouth, and runs `along` into the material"
    return [{ ...common, told, why, fix: "move `at` into the face, or turn `along` round" }]
  })
}

/** True when the axis of the hole comes nearer to the block than the hole is wide. */
function meets({ at, along, depthMm, diameterMm, sizeMm }: ShapeHole, blockMm: Vec3): boolean {
  const reachMm = sizeMm === undefined ? (diameterMm ?? 0) / 2 : Math.max(...sizeMm) / 2
  let [from, to] = depthMm > 0 ? [0, depthMm] : [Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY]
  for (const axis of [0, 1, 2] as const) {
    const isCross = Math.abs(along[axis]) < 1e-9
    const beyondMm = isCross ? reachMm : 0
    const low = -beyondMm - at[axis]
    const high = blockMm[axis] + beyondMm - at[axis]
    if (isCross) {
      if (low >= 0 || high <= 0) return false
      continue
    }
    const ends = [low / along[axis], high / along[axis]]
    from = Math.max(from, Math.min(...ends))
    to = Math.min(to, Math.max(...ends))
  }
  return to - from > 1e-6
}

function wallFault(profile: TubeProfile, wallMm: number): readonly ShapeFault[] {
  const narrowMm = profile.kind === "round" ? profile.diameterMm : Math.min(profile.widthMm, profile.heightMm)
  if (wallMm * 2 < narrowMm) return []
  return [impossible("wall", `is ${mm(wallMm)} thick in a tube of ${mm(narrowMm)}`)]
}

function profileFault(profile: TubeProfile): readonly ShapeFault[] {
  return profile.kind === "round" ? [] : cornerFault(profile.cornerMm, profile.widthMm, profile.heightMm)
}

function cornerFault(cornerMm: number, widthMm: number, heightMm: number): readonly ShapeFault[] {
  const mostMm = Math.min(widthMm, heightMm) / 2
  return cornerMm <= mostMm + 1e-6 ? [] : [impossible("corner", `is ${mm(cornerMm)}, ${mm(mostMm)} is the most`)]
}

function impossible(field: string, told: string): ShapeFault {
  const why = "one size leaves no room for the other; the shape is drawn without it"
  return {
    id: "shape-impossible",
    severity: "error",
    field: [field],
    told: `\`${field}\` ${told}`,
    why,
    fix: "correct one of the two sizes",
  }
}
