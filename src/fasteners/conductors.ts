/** Conductors and cables: AWG, resistance, strands, bundles, bending. Diameters in mm, areas in mm2, resistance in ohm/m. */
import { withOrigin } from "./tables/origin.ts"

/** Resistivity of annealed copper at 20 degC in ohm mm2 / m (IACS: 1.724e-8 ohm m). */
const copperOhmMm2PerM = 0.01724

/** Diameter of a solid AWG conductor (ASTM B258): 0.127 x 92^((36 - n) / 39). Gauges 1/0 to 4/0 are n = 0 to -3. */
export function conductorDiameterMm(gauge: number): number {
  return 0.127 * 92 ** ((36 - gauge) / 39)
}

/** Area of a solid AWG conductor. */
export function conductorAreaMm2(gauge: number): number {
  return (Math.PI / 4) * conductorDiameterMm(gauge) ** 2
}

/** Resistance of a solid copper conductor at 20 degC. */
export function copperResistance(gauge: number): number {
  return copperOhmMm2PerM / conductorAreaMm2(gauge)
}

/** Diameter of a concentric strand: 3 wires across for 7, 5 for 19; undefined for other makes. */
export function strandDiameterMm(wireCount: number, wireMm: number): number | undefined {
  const across = new Map([
    [1, 1],
    [7, 3],
    [19, 5],
    [37, 7],
  ]).get(wireCount)
  return across === undefined ? undefined : across * wireMm
}

/** Smallest circle round n equal wires, in diameters of one (circle packing; undefined for other n). */
export function bundleFactor(wireCount: number): number | undefined {
  switch (wireCount) {
    case 1:
      return 1
    case 2:
      return 2
    case 3:
      return 1 + 2 / Math.sqrt(3)
    case 4:
      return 1 + Math.SQRT2
    case 5:
      return 1 + 1 / Math.sin(Math.PI / 5)
    case 6:
    case 7:
      return 3
    default:
      return undefined
  }
}

/** Least inner bend radius as a multiple of the outside diameter. */
export const bendFactors = withOrigin(
  { standard: "DIN VDE 0298-3 and cable makers", edition: "", table: "least bend radius x OD", confidence: "compared" },
  [
    { use: "fixed, flexible cable <=8 mm", factor: 3 },
    { use: "fixed, flexible cable 8-12 mm", factor: 3 },
    { use: "fixed, flexible cable >12 mm", factor: 4 },
    { use: "flexible cord, flexing", factor: 6 },
    { use: "same during pulling", factor: 6 },
    { use: "cable moved by the machine (EN 60204-1)", factor: 10 },
    { use: "drag chain / forced guiding", factor: 7.5 },
    { use: "coax single bend", factor: 5 },
    { use: "coax repeated bends", factor: 10 },
  ],
)

/** Copper conductors of IEC 60228: largest resistance at 20 degC in ohm/km, and of class 5 the largest strand. */
export const conductorClasses = withOrigin(
  { standard: "IEC 60228", edition: "2023", table: "tables 1 to 3: plain copper", confidence: "compared" },
  [
    { areaMm2: 0.5, solidOhmPerKm: 36, flexibleOhmPerKm: 39, strandMm: 0.21 },
    { areaMm2: 0.75, solidOhmPerKm: 24.5, flexibleOhmPerKm: 26, strandMm: 0.21 },
    { areaMm2: 1, solidOhmPerKm: 18.1, flexibleOhmPerKm: 19.5, strandMm: 0.21 },
    { areaMm2: 1.5, solidOhmPerKm: 12.1, flexibleOhmPerKm: 13.3, strandMm: 0.26 },
    { areaMm2: 2.5, solidOhmPerKm: 7.41, flexibleOhmPerKm: 7.98, strandMm: 0.26 },
    { areaMm2: 4, solidOhmPerKm: 4.61, flexibleOhmPerKm: 4.95, strandMm: 0.31 },
    { areaMm2: 6, solidOhmPerKm: 3.08, flexibleOhmPerKm: 3.3, strandMm: 0.31 },
  ],
)
