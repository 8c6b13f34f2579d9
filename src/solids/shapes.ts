/** Solids described in a spec, made by the mesh kernel. */
import type { CrossSection, Manifold } from "manifold-3d"
import { segmentsForCircle } from "./circles.ts"
import type { Workshop } from "./kernel.ts"
import type { Shape, ShapeHole, TubeProfile, Vec3 } from "./types.ts"
import { along, crossDirections, lengthOf, scale, unit } from "./vectors.ts"

/** Makes the solid of a shape with all its holes; a wall or bore that leaves no room is passed over; kept by the workshop, so it lives as long as the operation. */
export function makeSolid(workshop: Workshop, shape: Shape): Manifold {
  switch (shape.kind) {
    case "box":
      return cutHoles(workshop, makeBlock(workshop, shape.sizeMm), shape.sizeMm, shape.holes)
    case "plate":
      return cutHoles(workshop, makePlate(workshop, shape.sizeMm, shape.cornerMm), shape.sizeMm, shape.holes)
    case "cylinder":
      return makeCylinder(workshop, shape)
    case "tube":
      return makeTube(workshop, shape.profile, shape.lengthMm, shape.wallMm)
    case "saddle":
      return cutHoles(workshop, makeSaddle(workshop, shape), shape.sizeMm, shape.holes)
  }
}

function makeBlock({ toplevel, keep }: Workshop, sizeMm: Vec3): Manifold {
  return keep(toplevel.Manifold.cube([...sizeMm]))
}

function makePlate(workshop: Workshop, [widthMm, depthMm, thicknessMm]: Vec3, cornerMm: number): Manifold {
  const { keep } = workshop
  const outline = makeRoundedRectangle(workshop, widthMm, depthMm, cornerMm)
  return keep(keep(outline.extrude(thicknessMm)).translate([widthMm / 2, depthMm / 2, 0]))
}

function makeCylinder(
  workshop: Workshop,
  { diameterMm, heightMm, boreMm }: Extract<Shape, { readonly kind: "cylinder" }>,
): Manifold {
  const { keep } = workshop
  const outside = makeDisc(workshop, diameterMm)
  const section = boreMm > 0 && boreMm < diameterMm ? keep(outside.subtract(makeDisc(workshop, boreMm))) : outside
  return keep(section.extrude(heightMm))
}

/** A tube along x round the origin. */
function makeTube(workshop: Workshop, profile: TubeProfile, lengthMm: number, wallMm: number): Manifold {
  const { keep } = workshop
  const outside = makeProfile(workshop, profile, 0)
  const narrowMm = profile.kind === "round" ? profile.diameterMm : Math.min(profile.widthMm, profile.heightMm)
  const section =
    wallMm > 0 && 2 * wallMm < narrowMm ? keep(outside.subtract(makeProfile(workshop, profile, wallMm))) : outside
  return alongX(workshop, keep(keep(section.extrude(lengthMm)).translate([0, 0, -lengthMm / 2])))
}

function makeSaddle(workshop: Workshop, shape: Extract<Shape, { readonly kind: "saddle" }>): Manifold {
  const { keep } = workshop
  const [lengthMm, widthMm] = shape.sizeMm
  const { seat } = shape
  const topMm = seat.kind === "round" ? seat.diameterMm / 2 : seat.heightMm / 2
  // Twice as long as the block, so that no end face of the tube coincides with one of the block.
  const tube = makeTube(workshop, seat, lengthMm * 2, 0)
  const inPlace = keep(tube.translate([lengthMm / 2, widthMm / 2, shape.depthMm - topMm]))
  return keep(makeBlock(workshop, shape.sizeMm).subtract(inPlace))
}

/** Section of a tube, drawn with its width along x and its height along y, made smaller by `insetMm` all round. */
function makeProfile(workshop: Workshop, profile: TubeProfile, insetMm: number): CrossSection {
  if (profile.kind === "round") return makeDisc(workshop, profile.diameterMm - 2 * insetMm)
  const { widthMm, heightMm, cornerMm } = profile
  const innerCornerMm = Math.max(0, cornerMm - insetMm)
  return makeRoundedRectangle(workshop, widthMm - 2 * insetMm, heightMm - 2 * insetMm, innerCornerMm)
}

/** Turns a solid that was drawn along z (width x, height y) so that it runs along x (width y, height z). */
function alongX({ keep }: Workshop, solid: Manifold): Manifold {
  // A cyclic change of axes z -> x, x -> y, y -> z is a pure turn; columns are the images of x, y, z.
  return keep(solid.transform([0, 1, 0, 0, 0, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0, 1]))
}

function makeDisc({ toplevel, keep }: Workshop, diameterMm: number): CrossSection {
  return keep(toplevel.CrossSection.circle(diameterMm / 2, segmentsForCircle(diameterMm / 2)))
}

/** A rectangle round the origin; each corner is a quarter circle, no larger than half the shorter side. */
function makeRoundedRectangle(workshop: Workshop, widthMm: number, heightMm: number, cornerMm: number): CrossSection {
  const { toplevel, keep } = workshop
  const radiusMm = Math.min(cornerMm, widthMm / 2, heightMm / 2)
  if (radiusMm <= 0) return keep(toplevel.CrossSection.square([widthMm, heightMm], true))
  const steps = segmentsForCircle(radiusMm) / 4
  const outline: [number, number][] = []
  for (let corner = 0; corner < 4; corner += 1) {
    const centreX = (widthMm / 2 - radiusMm) * (corner === 0 || corner === 3 ? 1 : -1)
    const centreY = (heightMm / 2 - radiusMm) * (corner < 2 ? 1 : -1)
    for (let step = 0; step <= steps; step += 1) {
      const angle = ((corner + step / steps) * Math.PI) / 2
      outline.push([centreX + radiusMm * Math.cos(angle), centreY + radiusMm * Math.sin(angle)])
    }
  }
  return keep(new toplevel.CrossSection([outline], "Positive"))
}

function cutHoles(workshop: Workshop, solid: Manifold, sizeMm: Vec3, holes: readonly ShapeHole[]): Manifold {
  if (holes.length === 0) return solid
  const tools = holes.map((hole) => makeHoleTool(workshop, hole, sizeMm))
  return workshop.keep(workshop.toplevel.Manifold.difference([solid, ...tools]))
}

/** How far a tool begins before the mouth of a blind hole, so that no face of it coincides with the block's. */
const beforeMouthMm = 0.05

/** The solid that a hole takes away. One that goes right through runs from far outside to far outside. */
function makeHoleTool(workshop: Workshop, hole: ShapeHole, sizeMm: Vec3): Manifold {
  const { keep } = workshop
  const farMm = 2 * (lengthOf(sizeMm) + lengthOf(hole.at))
  const [beforeMm, depthMm] = hole.depthMm > 0 ? [beforeMouthMm, hole.depthMm] : [farMm, farMm]
  const section =
    hole.sizeMm === undefined
      ? makeDisc(workshop, hole.diameterMm ?? 0)
      : makeRoundedRectangle(workshop, hole.sizeMm[0], hole.sizeMm[1], 0)
  const tool = keep(section.extrude(beforeMm + depthMm))
  const axis = unit(hole.along)
  const start = along(hole.at, axis, -beforeMm)
  const [first, second] = crossDirections(axis)
  // Both profiles are symmetric, so a left-handed pair is put right by turning the second direction round.
  const isRightHanded =
    axis[0] * (first[1] * second[2] - first[2] * second[1]) +
      axis[1] * (first[2] * second[0] - first[0] * second[2]) +
      axis[2] * (first[0] * second[1] - first[1] * second[0]) >
    0
  const third = isRightHanded ? second : scale(second, -1)
  return keep(tool.transform([...first, 0, ...third, 0, ...axis, 0, ...start, 1]))
}
