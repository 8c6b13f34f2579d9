import { isTold, placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Kit } from "../kit/types.ts"
import { boundsOf, sizeOf } from "../solids/index.ts"
import { mm, trimmed } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Longest side that a piece of a kit may have, and the least that its longest side must have. */
const pieceMm = { min: 1, max: 2000 }
/** What a printer may add to a size. */
const compensationMm = 1

/** Finds parts and units of sizes that no kit has, and compensations of printing above a millimetre. */
export const sizeImplausible = defineRule({
  id: "size-implausible",
  severity: "warning",
  source: "practice: parts of a mounting kit measure from 1 mm to 2 m, printers miss sizes by tenths",
  check: ({ kit }) => [...findPieces(kit), ...findCompensations(kit)],
})

function findPieces(kit: Kit): readonly Report[] {
  return [...kit.parts, ...kit.units].flatMap(({ id, path, instances }) => {
    const mesh = kit.instances.find((one) => one.id === instances[0])?.mesh
    const bounds = mesh === undefined ? undefined : boundsOf(kit.meshes[mesh] ?? emptyMesh)
    if (bounds === undefined || isTold(kit.told, `${path}/shape`, `${path}/model`)) return []
    const longestMm = Math.max(...sizeOf(bounds))
    // Small models are told where they are read.
    const isModel = Object.hasOwn(kit.places, `${path}/model`)
    if ((longestMm >= pieceMm.min || isModel) && longestMm <= pieceMm.max) return []
    const isLarge = longestMm > pieceMm.max
    return [
      {
        message: `\`${id}\` is ${size(longestMm)} long, ${isLarge ? "more than 2 m" : "less than 1 mm"}`,
        where: placeAt(kit.places, path, isModel ? "model" : "shape"),
        why: isLarge
          ? "sizes are in millimetres; a slip of the unit makes a piece 10, 25.4 or 1000 times too large"
          : `in inches it would be ${mm(longestMm * 25.4)}, in metres ${mm(longestMm * 1000)}`,
        fix: "Write the unit behind the numbers, or `unit:` in the long form of `model`.",
        subjects: [id],
      },
    ]
  })
}

function findCompensations(kit: Kit): readonly Report[] {
  return kit.printing.flatMap(({ material, holeMm, outsideMm }) =>
    [["holes", holeMm] as const, ["outside", outsideMm] as const].flatMap(([key, value]) => {
      if (Math.abs(value) <= compensationMm || isTold(kit.told, "printing")) return []
      return [
        {
          message: `printing of ${material} adds ${mm(value)} to ${key === "holes" ? "holes" : "outsides"}, more than 1 mm`,
          where: placeAt(kit.places, `printing/${material}`, key),
          why: "printers miss sizes by a few tenths of a millimetre",
          fix: "Measure a printed hole: finished size minus modelled size, mostly -0.1 to -0.4.",
          subjects: [material],
        },
      ]
    }),
  )
}

const emptyMesh = { positions: new Float64Array(0), triangles: new Uint32Array(0) }

function size(valueMm: number): string {
  return valueMm >= 1e4 ? `${trimmed(valueMm / 1000, 1)}\u00a0m` : mm(valueMm)
}
