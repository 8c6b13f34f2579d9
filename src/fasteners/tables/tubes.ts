/** Tubes as they are sold: pipe series, precision tubes, corner radii. Sizes in mm. */
import { withOrigin } from "./origin.ts"

/** Outside diameters of the pipe series (series 1), from memory. */
export const pipeSeries = withOrigin(
  { standard: "EN 10220 / ISO 4200", edition: "2002", table: "series 1: outside diameter", confidence: "memory" },
  [
    { name: "DN6", outsideMm: 10.2 },
    { name: "DN8", outsideMm: 13.5 },
    { name: "DN10", outsideMm: 17.2 },
    { name: "DN15", outsideMm: 21.3 },
    { name: "DN20", outsideMm: 26.9 },
    { name: "DN25", outsideMm: 33.7 },
    { name: "DN32", outsideMm: 42.4 },
    { name: "DN40", outsideMm: 48.3 },
    { name: "DN50", outsideMm: 60.3 },
    { name: "DN65", outsideMm: 76.1 },
    { name: "DN80", outsideMm: 88.9 },
    { name: "DN100", outsideMm: 114.3 },
  ],
)

/** Outside diameters of round precision tubes, from memory. */
export const precisionTubes = withOrigin(
  { standard: "EN 10305-1 / EN 10305-3", edition: "2016", table: "preferred outside diameters", confidence: "memory" },
  [10, 12, 15, 16, 18, 20, 22, 25, 28, 30, 32, 35, 38, 40, 42, 45, 50].map((outsideMm) => ({ outsideMm })),
)

/** Range of the outside corner radius of cold formed square tube with a wall up to 6 mm: 1.6 t to 2.4 t (EN 10219-2). */
export function cornerRadiusMm(wallMm: number): { readonly min: number; readonly max: number } {
  return { min: 1.6 * wallMm, max: 2.4 * wallMm }
}
