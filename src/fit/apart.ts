/** Which pieces of the kit cannot be on what the buyer has, since their boxes are apart. */
import type { Instance, Kit } from "../kit/types.ts"
import { type Bounds, boundsOf } from "../solids/bounds.ts"
import { moveMesh } from "../solids/poses.ts"
import type { Vec3 } from "../solids/types.ts"

/** Gap in mm between two boxes from which on the pieces do not touch: above the tolerance of an exported mesh. */
const leastGapMm = 1

/**
 * Ids of the instances of the kit's parts that stand clear, in their final place, of every frame and of every unit that no
 * act puts in its place. A frame goes on beyond the length that is drawn. A piece without a mesh is never among them, nor is
 * any when something of the buyer's has no mesh, or a frame lies askew. Boxes decide, so pieces that are apart may be missing.
 */
export function computeApart(kit: Kit): readonly string[] {
  const placed = new Set(
    kit.steps.flatMap(({ acts }) => acts.flatMap((act) => (act.verb === "place" ? act.instances : []))),
  )
  const owned = new Set(kit.parts.flatMap(({ ownedBy, instances }) => (ownedBy === undefined ? [] : instances)))
  const movable = kit.instances.filter(({ id, owner }) => owner === "part" && !owned.has(id))
  const standing = kit.instances.filter(
    ({ id, owner }) => owner === "frame" || (owner === "unit" && !placed.has(id)) || isPieceOfStanding(kit, placed, id),
  )
  const walls = standing.map((piece) => wallOf(kit, piece))
  return movable
    .filter((piece) => {
      const box = boxOf(kit, piece)
      return box !== undefined && walls.every((wall) => wall !== undefined && isApart(box, wall))
    })
    .map(({ id }) => id)
}

function isPieceOfStanding(kit: Kit, placed: ReadonlySet<string>, id: string): boolean {
  const owner = kit.parts.find(({ instances }) => instances.includes(id))?.ownedBy
  const unit = kit.units.find((one) => one.id === owner)
  return unit?.instances.some((instance) => !placed.has(instance)) === true
}

function boxOf(kit: Kit, { mesh, pose }: Instance): Bounds | undefined {
  const solid = mesh === undefined ? undefined : kit.meshes[mesh]
  return solid === undefined ? undefined : boundsOf(moveMesh(solid, pose))
}

/** The box of a unit; that of a frame without end along its axis. */
function wallOf(kit: Kit, piece: Instance): Bounds | undefined {
  const box = boxOf(kit, piece)
  if (piece.owner !== "frame" || box === undefined) return box
  const along = kit.frames.find(({ id }) => id === piece.of)?.axis.along
  const axis = along?.findIndex((share) => Math.abs(Math.abs(share) - 1) < 1e-6) ?? -1
  if (axis < 0) return undefined
  const reach = (corner: Vec3, end: number): Vec3 => [
    axis === 0 ? end : corner[0],
    axis === 1 ? end : corner[1],
    axis === 2 ? end : corner[2],
  ]
  return { min: reach(box.min, -Infinity), max: reach(box.max, Infinity) }
}

function isApart(one: Bounds, other: Bounds): boolean {
  const axes = [0, 1, 2] as const
  return axes.some(
    (axis) => one.min[axis] - other.max[axis] >= leastGapMm || other.min[axis] - one.max[axis] >= leastGapMm,
  )
}
