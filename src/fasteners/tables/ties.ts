/** Cable ties: strength by width, lengths, bundles; tubes by trade size. Forces in N, lengths in mm. */
import { type Origin, withOrigin } from "./origin.ts"

const origin: Origin = {
  standard: "SAE AS33671 / UL 62275",
  edition: "",
  table: "loop tensile class in lbf and the nominal width that goes with it",
  confidence: "compared",
}

/** One pound-force in newtons (exact: 0.45359237 kg x 9.80665 m/s2). */
export const poundForceN = 0.45359237 * 9.80665

/** Loop tensile classes of polyamide ties. The 30 lbf row is from memory. */
export const tieClasses = withOrigin(origin, [
  { widthMm: 2.5, strengthLbf: 18 },
  { widthMm: 3.5, strengthLbf: 30 },
  { widthMm: 3.6, strengthLbf: 40 },
  { widthMm: 4.8, strengthLbf: 50 },
  { widthMm: 7.6, strengthLbf: 120 },
  { widthMm: 9, strengthLbf: 175 },
  { widthMm: 12.7, strengthLbf: 250 },
])

/** Loop strength of a polyamide tie of that width: the class of the widest listed width that is not wider. */
export function findTieStrengthN(widthMm: number): number | undefined {
  const row = tieClasses.filter((one) => one.widthMm <= widthMm + 0.05).at(-1)
  return row === undefined ? undefined : row.strengthLbf * poundForceN
}

/** Least tension by width in QB/T 4494-2013, lower than the classes above. */
export const leastTensions = withOrigin(
  { standard: "QB/T 4494", edition: "2013", table: "least tension by width, polyamide", confidence: "compared" },
  [
    { overMm: 2, upToMm: 3, forceN: 80 },
    { overMm: 4, upToMm: 5, forceN: 180 },
    { overMm: 5, upToMm: 6, forceN: 220 },
    { overMm: 6, upToMm: 7, forceN: 360 },
    { overMm: 10, upToMm: 11, forceN: 890 },
  ],
)

/** Largest bundle by length of tie, as catalogues print it (from memory; makers differ by 6 mm). */
export const bundleTable = withOrigin(
  { standard: "catalogue practice", edition: "", table: "largest bundle by length", confidence: "practice" },
  [
    { lengthMm: 100, bundleMm: 22 },
    { lengthMm: 140, bundleMm: 33 },
    { lengthMm: 200, bundleMm: 53 },
    { lengthMm: 250, bundleMm: 65 },
    { lengthMm: 300, bundleMm: 76 },
    { lengthMm: 370, bundleMm: 102 },
    { lengthMm: 430, bundleMm: 110 },
    { lengthMm: 530, bundleMm: 150 },
  ],
)

/** Lengths that a width is made in. */
export const tieLengths = withOrigin(
  { standard: "IEC 62275 test reports", edition: "2013", table: "size families", confidence: "compared" },
  [
    { widthMm: 2.5, shortestMm: 100, longestMm: 200 },
    { widthMm: 3.6, shortestMm: 100, longestMm: 370 },
    { widthMm: 4.8, shortestMm: 100, longestMm: 550 },
    { widthMm: 7.6, shortestMm: 150, longestMm: 550 },
    { widthMm: 9, shortestMm: 400, longestMm: 1200 },
  ],
)

/** Share of the loop strength that may be used for good: 0.25 to 0.5 (from memory). */
export const workingShares: readonly [number, number] = [0.25, 0.5]
