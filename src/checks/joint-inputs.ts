/** What the facts of a joint hang on. */
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"

/** Paths of what the facts of a joint are computed from: where one is at fault, that was told. */
export function inputPaths(
  kit: Kit,
  { path, through, bore }: Pick<Joint, "path" | "through" | "bore">,
): readonly string[] {
  const pieces = [...through, ...bore.owners].map((id) => id.split(".")[0])
  // Without its holes nobody knows whose bore it is.
  const parts = [...kit.parts, ...kit.units].filter(({ id }) => bore.owners.length === 0 || pieces.includes(id))
  return [
    ...["screws", "washer", "through", "into", "nut", "holes", "grip", "torque"].map((key) => `${path}/${key}`),
    ...(bore.path === path ? [] : [bore.path]),
    ...parts.flatMap((part) =>
      ["model", "shape", "at", "turn", "copies", "material", "plastic"].map((key) => `${part.path}/${key}`),
    ),
  ]
}
