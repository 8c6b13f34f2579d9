import fc from "fast-check"
import { describe, expect, test } from "vitest"
import { printDesignation, readDesignation } from "../../src/fasteners/designation.ts"
import { screwStandards, standardNames, successors } from "../../src/fasteners/standards.ts"
import { lengthTable } from "../../src/fasteners/tables/iso-888.ts"

/** What was written, the designation after ISO 8991 that comes out of it, drive, property class (`*` when assumed). */
const read: readonly (readonly [string, string, string, string])[] = [
  ["ISO 4762 M4x14", "ISO 4762 - M4 x 14", "hexagon-socket 3", "8.8*"],
  ["ISO 4762 - M4 x 16 - A2-70", "ISO 4762 - M4 x 16 - A2-70", "hexagon-socket 3", "A2-70"],
  ["iso4762 M4X14-8.8", "ISO 4762 - M4 x 14 - 8.8", "hexagon-socket 3", "8.8"],
  ["DIN EN ISO 4762 M4 × 16 mm", "ISO 4762 - M4 x 16", "hexagon-socket 3", "8.8*"],
  ["M4x16 ISO 4762", "ISO 4762 - M4 x 16", "hexagon-socket 3", "8.8*"],
  ["ISO 4762 M4x16 A2", "ISO 4762 - M4 x 16 - A2", "hexagon-socket 3", "A2-70*"],
  ["ISO 4762 M2,5x8", "ISO 4762 - M2.5 x 8", "hexagon-socket 2", "8.8*"],
  ["ISO 4762 – M8x1x20", "ISO 4762 - M8 x 1 x 20", "hexagon-socket 6", "8.8*"],
  ["ISO 4762 M8x1.25x20", "ISO 4762 - M8 x 20", "hexagon-socket 6", "8.8*"],
  ["DIN 912 M4x16", "ISO 4762 - M4 x 16", "hexagon-socket 3", "8.8*"],
  ["ISO 7380 M5x12", "ISO 7380-1 - M5 x 12", "hexagon-socket 3", "8.8*"],
  ["ISO 7380-2 M5x12 010.9", "ISO 7380-2 - M5 x 12 - 010.9", "hexagon-socket 3", "010.9"],
  ["ISO 10642 M4x12", "ISO 10642 - M4 x 12", "hexagon-socket 2.5", "8.8*"],
  ["ISO 4014 M8x60", "ISO 4014 - M8 x 60", "hexagon 13", "8.8*"],
  ["ISO 4017 M6x20 10.9", "ISO 4017 - M6 x 20 - 10.9", "hexagon 10", "10.9"],
  ["ISO 7045 M3x10 PZ1", "ISO 7045 - M3 x 10 - Z", "cross-pz 1", "4.8*"],
  ["ISO 7045 - M3 x 10 - 4.8 - Z", "ISO 7045 - M3 x 10 - 4.8 - Z", "cross-pz 1", "4.8"],
  ["ISO 14583 M3x10", "ISO 14583 - M3 x 10", "hexalobular T10", "4.8*"],
  ["thread-forming pan M3x10 PZ1", "thread-forming pan M3 x 10 - PZ1", "cross-pz 1", "steel*"],
  ["thread forming countersunk 3,5x12 TX15", "thread-forming countersunk M3.5 x 12 - T15", "hexalobular T15", "steel*"],
  ["ISO 4032 M4", "ISO 4032 - M4", "hexagon 7", "8*"],
  ["ISO 4032 - M8 x 1 - 8", "ISO 4032 - M8 x 1 - 8", "hexagon 13", "8"],
  ["ISO 10511 M4", "ISO 10511 - M4", "hexagon 7", "04*"],
  ["ISO 7040 M8 A4-80", "ISO 7040 - M8 - A4-80", "hexagon 13", "A4-80"],
  ["ISO 7089 M4", "ISO 7089 - 4", "none", "200 HV*"],
  ["ISO 7089-4-200HV", "ISO 7089 - 4 - 200 HV", "none", "200 HV"],
  ["ISO 7093-1 M4", "ISO 7093-1 - 4", "none", "200 HV*"],
  ["heat-set insert M3x5,7", "insert M3 x 5.7", "none", "brass*"],
]

test.each(read)("%s", (written, designation, drive, propertyClass) => {
  const result = readDesignation(written)
  if (!("fastener" in result)) throw new Error(result.problem.message)
  const { fastener } = result
  const driveWords = fastener.drive === undefined ? "none" : `${fastener.drive.kind} ${fastener.drive.size}`
  const classWords = fastener.propertyClass + (fastener.isClassAssumed ? "*" : "")
  expect([fastener.designation, driveWords, classWords]).toEqual([designation, drive, propertyClass])
})

/** What was written, the message, a part of the fix. */
const refused: readonly (readonly [string, string, string])[] = [
  ["", "a fastener has no designation", "ISO 4762 M4x16"],
  ["screw", "`screw` is not a fastener designation", "ISO 4762 M4x16"],
  ["M4x16", "`M4x16` names no standard", "`ISO 4762 M4x16`"],
  ["ISO 4672 M4x16", "`ISO 4672 M4x16`: there is no table for `ISO 4672`", "`ISO 4762`"],
  ["ISO 4762", "`ISO 4762` has no size", "ISO 4762 M4x16"],
  ["ISO 4762 M4", "`ISO 4762 M4` has no length", "ISO 4762 M4x16"],
  ["ISO 4762 M4 20", "`ISO 4762 M4 20` has no length", "ISO 4762 M4x20"],
  ["ISO 4762 M8x1", "`ISO 4762 M8x1` has no length", "ISO 4762 M8x1x16"],
  [
    "ISO 4762 M4x15",
    "`ISO 4762 M4x15`: screws are not made in length 15 mm (ISO 888)",
    "`ISO 4762 M4x14` or `ISO 4762 M4x16`",
  ],
  ["-1 x ISO 4762 M6x14", "`-1 x ISO 4762 M6x14`: -1 is no number of pieces", "`1 x ISO 4762 M6x14`"],
  ["1.5 x ISO 4762 M6x14", "`1.5 x ISO 4762 M6x14`: 1.5 is no number of pieces", "`1 x ISO 4762 M6x14`"],
  ["ISO 4762 M6x0", "`ISO 4762 M6x0`: screws are not made in length 0 mm (ISO 888)", "`ISO 4762 M6x2`"],
  ["ISO 4762 M6x99999", "`ISO 4762 M6x99999`: screws are not made in length 99999 mm (ISO 888)", "`ISO 4762 M6x300`"],
  ["insert M3x0", "`insert M3x0`: inserts are not 0 mm long", "`insert M3x5.7`"],
  ["ISO 4762 M7x20", "`ISO 4762 M7x20`: `ISO 4762` has no size M7", "`M6` or `M8`"],
  ["ISO 4762 M8x1.1x20", "`ISO 4762 M8x1.1x20`: M8 has no pitch of 1.1 mm (ISO 261)", "1.25, 1, 0.75"],
  ["ISO 4762 M4x16 zinc", "`ISO 4762 M4x16 zinc`: `zinc` is no property class or drive", "leave `zinc` out"],
  ["ISO 7045 M3x10 PZ2", "`ISO 7045 M3x10 PZ2` has a recess of size 1, not PZ2", "`PZ1`"],
  ["ISO 4762 M4x16 T20", "`ISO 4762 M4x16 T20` has drive hexagon socket 3, not T20", "leave `T20` out"],
  ["ISO 7089 M4x10", "`ISO 7089 M4x10`: a washer has no length", "`ISO 7089 M4`"],
  ["thread-forming pan M3", "`thread-forming pan M3` has no length", "M3x10"],
]

test.each(refused)("%s is refused", (written, message, fix) => {
  const result = readDesignation(written)
  if (!("problem" in result)) throw new Error(`${written} was read as ${result.fastener.designation}`)
  expect(result.problem.message).toBe(message)
  expect(result.problem.message.length).toBeLessThanOrEqual(100)
  expect(result.problem.fix).toContain(fix)
})

describe("what was assumed is told", () => {
  test.each([
    ["DIN 912 M4x16", "`DIN 912` is withdrawn, `ISO 4762` took its place"],
    ["ISO 7045 M3x10", "recess type H (PH1) taken, none is written"],
    ["thread-forming pan M3x10", "no drive is written, so no driver can be named"],
  ])("%s", (written, note) => {
    expect(readDesignation(written)).toMatchObject({ note })
  })
})

const size = fc.constantFrom("M3", "M4", "m5", "M 6", "M8x1", "8", "M12", "M2,5", "M99", "M0", "M1e9", "")
const length = fc.constantFrom("x16", " x 20", "×8", "X1,5", "x0", "x16x2", "x", "")
const end = fc.constantFrom("", " A2-70", "-8.8", " PZ1", " T10", " H", " 200 HV", " A4", " ???", "mm")
const start = fc.constantFrom(
  ...standardNames,
  ...Object.keys(successors),
  "thread-forming pan",
  "insert",
  "iso",
  "DIN",
  "",
)

test("any text gives an answer, and what is read prints to a text that reads the same", () => {
  const anything = fc.oneof(
    { weight: 1, arbitrary: fc.string({ maxLength: 150 }) },
    {
      weight: 4,
      arbitrary: fc.tuple(start, fc.constantFrom(" ", " - ", ""), size, length, end).map((all) => all.join("")),
    },
  )
  let readCount = 0
  fc.assert(
    fc.property(anything, (written) => {
      const result = readDesignation(written)
      if ("problem" in result) {
        expect(result.problem.message.length).toBeLessThanOrEqual(100)
        return
      }
      readCount += 1
      const again = readDesignation(printDesignation(result.fastener))
      expect(again).toMatchObject({ fastener: { ...result.fastener, written: result.fastener.designation } })
    }),
    { seed: 8991, numRuns: 8000 },
  )
  expect(readCount).toBeGreaterThan(300)
})

test("every size of every screw standard reads, in every length of its range", () => {
  const lengths = lengthTable.filter(({ isPreferred }) => isPreferred).map(({ lengthMm }) => lengthMm)
  let count = 0
  for (const standard of screwStandards) {
    for (const row of standard.rows) {
      const [shortest, longest] = row.lengthsMm
      for (const lengthMm of lengths.filter((one) => one >= shortest && one <= longest)) {
        const result = readDesignation(`${standard.name} M${row.diameterMm}x${lengthMm} 8.8`)
        if ("problem" in result) throw new Error(result.problem.message)
        expect(result.fastener).toMatchObject({ diameterMm: row.diameterMm, lengthMm, standard: standard.name })
        expect(result.fastener.drive?.size).toBe(row.driveSize)
        count += 1
      }
    }
  }
  expect(count).toBeGreaterThan(1000)
})
