import { isDeepStrictEqual } from "node:util"
import { expect, test } from "vitest"
import { drawProof } from "../../src/build/documents.ts"
import { proveKit } from "../../src/build/prove.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { loadSpecs } from "../../src/spec/index.ts"
import { kitFolders, readKitFiles, readKitModel } from "./kit-files.ts"

const kernel = await loadKernel()

test.each(kitFolders)("every stage of %s gives plain data that survives a structured clone", (folder) => {
  const files = readKitFiles(folder)
  const specs = loadSpecs(files)
  expect(specs.value.length).toBeGreaterThan(0)
  expect(survives(specs)).toBe(true)
  const readModel = (file: string) => {
    const bytes = readKitModel(folder, file)
    return bytes === undefined ? { problem: { message: `there is no ${file}` } } : { bytes }
  }
  const { proofs } = proveKit(files, { kernel, readModel })
  for (const [index, { kit, fit, sequence, findings }] of proofs.entries()) {
    expect([kit, fit, sequence, findings].map(survives)).toEqual([true, true, true, true])
    // Drawings take longest and are made alike for every variant.
    if (index === 0) expect(survives(drawProof({ kit, fit, sequence, findings }, kernel))).toBe(true)
  }
})

test("a function in a stage's result is found out", () => {
  expect(() => survives({ compute: () => 1 })).toThrow()
  expect(survives({ at: new Date(0), list: new Map([["a", [1]]]) })).toBe(true)
  expect(
    survives(
      new (class Thing {
        readonly size = 1
      })(),
    ),
  ).toBe(false)
})

/** Compares prototypes too, so that an object of a class does not pass for plain data. */
function survives(value: unknown): boolean {
  return isDeepStrictEqual(structuredClone(value), value)
}
