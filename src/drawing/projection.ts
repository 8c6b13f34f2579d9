/** Isometric views (ISO 5456-3): parallel projection along a space diagonal, the vertical axis drawn vertical. */
import type { Vec3 } from "../solids/types.ts"
import { cross, dot, unit } from "../solids/vectors.ts"

export type View = {
  /** `front-left-top`; `side` for a plain side view. */
  readonly name: string
  /** Unit vector from the thing to the eye. */
  readonly from: Vec3
  /** Directions of the thing that point right and up on paper. */
  readonly right: Vec3
  readonly up: Vec3
}

/** A view from `from` with `upward` drawn upright. */
export function makeView(name: string, from: Vec3, upward: Vec3 = [0, 0, 1]): View {
  const toEye = unit(from)
  const right = unit(cross(upward, toEye))
  return { name, from: toEye, right, up: cross(toEye, right) }
}

/**
 * The eight isometric views, seen from the corners of a cube; those from above first, the usual one (front, right,
 * top) at the head. `front` is -y and `left` is -x, as in the written format.
 */
export const cornerViews: readonly View[] = [
  makeView("front-right-top", [1, -1, 1]),
  makeView("front-left-top", [-1, -1, 1]),
  makeView("back-right-top", [1, 1, 1]),
  makeView("back-left-top", [-1, 1, 1]),
  makeView("front-right-bottom", [1, -1, -1]),
  makeView("front-left-bottom", [-1, -1, -1]),
  makeView("back-right-bottom", [1, 1, -1]),
  makeView("back-left-bottom", [-1, 1, -1]),
]

/** Corner views whose names hold all words of `name`, in any order; none when a word is unknown. */
export function findViews(name: string): readonly View[] {
  const words = name.split(/[\s-]+/).filter((word) => word !== "")
  return cornerViews.filter((view) => {
    const own = view.name.split("-")
    return words.every((word) => own.includes(word))
  })
}

/** Point on paper, y downward, in mm of the thing; `depth` grows towards the eye. */
export function projectPoint(view: View, point: Vec3): { x: number; y: number; depth: number } {
  return { x: dot(view.right, point), y: -dot(view.up, point), depth: dot(view.from, point) }
}

/** A direction as it runs on paper, y downward; shorter than 1 unless it lies in the paper. */
export function projectDirection(view: View, direction: Vec3): readonly [number, number] {
  return [dot(view.right, direction), -dot(view.up, direction)]
}
