/** Writes the models of the demo kit and the test kits: `node src/setup/run.mjs tests/guides/write-models.ts`. */
import { mkdirSync, writeFileSync } from "node:fs"
import { dirname } from "node:path"
import { loadKernel } from "../../src/solids/index.ts"
import { makeModels } from "./make-models.ts"

for (const [path, bytes] of makeModels(await loadKernel())) {
  mkdirSync(dirname(path), { recursive: true })
  writeFileSync(path, bytes)
  process.stdout.write(`${path} ${bytes.length} bytes\n`)
}
