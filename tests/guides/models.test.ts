import { existsSync, readFileSync } from "node:fs"
import { expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { makeModels } from "./make-models.ts"

const root = new URL("../../", import.meta.url).pathname
const models = makeModels(await loadKernel())

test.each([...models])("%s is as the script makes it", (path, bytes) => {
  expect(existsSync(root + path)).toBe(true)
  expect(Buffer.compare(readFileSync(root + path), bytes)).toBe(0)
})

test.each([...models])("%s stays light enough for a quick drawing", (_path, bytes) => {
  const triangleCount = new DataView(bytes.buffer, bytes.byteOffset).getUint32(80, true)
  expect(triangleCount).toBeGreaterThan(100)
  expect(triangleCount).toBeLessThan(8000)
})
