/** Leaves out groups of things that stand apart from what a picture is about. */
import { subtract } from "../solids/vectors.ts"
import { type Extent, extentAlong, type Thing, type ThingRole } from "./things.ts"
import { shiftPose } from "./vector.ts"

/** Things whose boxes are nearer than this hang together. */
const touchMm = 3

/** Keeps the things that touch one of `role`, directly or through others, each in its final place; all when there is none. */
export function keepNear(things: readonly Thing[], role: ThingRole): readonly Thing[] {
  if (!things.some((thing) => thing.role === role)) return things
  const boxes = things.map(boxOf)
  const isKept = things.map((thing) => thing.role === role)
  const queue = things.flatMap((_, index) => (isKept[index] === true ? [index] : []))
  for (let next = queue.pop(); next !== undefined; next = queue.pop()) {
    const box = boxes[next]
    if (box === undefined) continue
    boxes.forEach((other, index) => {
      if (isKept[index] === true || !touches(box, other)) return
      isKept[index] = true
      queue.push(index)
    })
  }
  return things.filter((_, index) => isKept[index])
}

type Box = readonly [Extent, Extent, Extent]

function boxOf({ mesh, pose, moved }: Thing): Box {
  const home = moved === undefined ? pose : shiftPose(pose, subtract([0, 0, 0], moved))
  return [extentAlong(mesh, home, [1, 0, 0]), extentAlong(mesh, home, [0, 1, 0]), extentAlong(mesh, home, [0, 0, 1])]
}

function touches(one: Box, other: Box): boolean {
  return one.every(({ min, max }, axis) => {
    const extent = other[axis]
    return extent !== undefined && min < extent.max + touchMm && extent.min < max + touchMm
  })
}
