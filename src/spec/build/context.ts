/** What the builders of a spec share: texts with their places, vectors, holes. */
import type { z } from "zod"
import type { Places } from "../../findings/types.ts"
import type { Outline, TubeProfile } from "../../solids/types.ts"
import type { SourceText } from "../../text/types.ts"
import { type Tree, treeAt } from "../read/tree.ts"
import type { holes, outline, patternPoint, profile } from "../schema/fields.ts"
import type { HolesSpec, PlacementSpec, RangeSpec, Triple } from "../types.ts"

export type Build = { readonly tree: Tree; readonly places: Places }

/** The way a screw or hole goes when nothing is said. */
export const down: Triple = [0, 0, -1]

/** Gives the text at a path with the stretches it was written in; undefined when it is not there or empty. */
export function textAt({ tree, places }: Build, ...path: readonly string[]): SourceText | undefined {
  const value = treeAt(tree, path)
  const place = places[path.join("/")]
  if (value?.kind !== "scalar" || value.value === null || place === undefined) return undefined
  const stretches =
    value.stretches.length > 0 ? value.stretches : [{ at: 0, line: value.span.line, column: value.span.column }]
  return { text: value.written, where: place, stretches }
}

/** Texts of a list. */
export function textsAt(build: Build, ...path: readonly string[]): readonly SourceText[] {
  const list = treeAt(build.tree, path)
  if (list?.kind !== "list") return []
  return list.items.flatMap((_, index): readonly SourceText[] => {
    const text = textAt(build, ...path, String(index))
    return text === undefined ? [] : [text]
  })
}

type Input<Make extends (...given: never[]) => z.ZodType> = z.output<ReturnType<Make>>

/** Gives a range with both ends; an end that was not written lies at infinity. */
export function buildRange(
  range: { readonly min?: number | undefined; readonly max?: number | undefined } | undefined,
): RangeSpec | undefined {
  if (range === undefined) return undefined
  return { min: range.min ?? Number.NEGATIVE_INFINITY, max: range.max ?? Number.POSITIVE_INFINITY }
}

/** Gives an opening or connector in mm. */
export function buildOutline(given: Input<typeof outline> | undefined): Outline | undefined {
  if (given === undefined) return undefined
  switch (given.kind) {
    case "rectangle":
      return { kind: "rectangle", widthMm: given.width, heightMm: given.height, cornerMm: given.corner }
    case "circle":
      return { kind: "circle", diameterMm: given.diameter }
    case "obround":
      return { kind: "obround", widthMm: given.width, heightMm: given.height }
  }
}

/** Gives the outside of a tube in mm; a square tube without height is as high as wide. */
export function buildProfile(given: Input<typeof profile>): TubeProfile {
  if (given.kind === "round") return { kind: "round", diameterMm: given.diameter }
  return { kind: "square", widthMm: given.width, heightMm: given.height ?? given.width, cornerMm: given.corner }
}

/** Gives shift in mm and turn in degrees; both zero mean "as exported". */
export function buildPlacement(given: {
  readonly at?: Triple | undefined
  readonly turn?: Triple | undefined
}): PlacementSpec {
  return { at: given.at ?? [0, 0, 0], turnDeg: given.turn ?? [0, 0, 0] }
}

/** Gives points of a pattern; a point without a direction goes down, or the way that is given. */
export function buildPoints(
  given: readonly z.output<typeof patternPoint>[],
  usual: Triple = down,
): readonly { readonly at: Triple; readonly along: Triple }[] {
  return given.map((point) => ({ at: point.at, along: point.along ?? usual }))
}

/** Gives typed points, or the diameter and pieces in which holes are to be found; undefined when not written. */
export function buildHoles(given: Input<typeof holes> | undefined, path: string): HolesSpec | undefined {
  if (given === undefined) return undefined
  // Written as a type guard of our own: arrays of readonly tuples confuse `Array.isArray`.
  if (isPoints(given)) return { kind: "typed", points: buildPoints(given), path }
  return { kind: "found", diameterMm: given.diameter, in: given.in, along: given.along, path }
}

function isPoints(given: Input<typeof holes>): given is z.output<typeof patternPoint>[] {
  return Array.isArray(given)
}
