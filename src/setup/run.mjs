/** Runs one of the repository's own tools written in TypeScript: `node src/setup/run.mjs tests/bench/bench.ts ...`. */
import { join } from "node:path"
import { pathToFileURL } from "node:url"
import { compile, isCompiled } from "./compile.mjs"
import { root } from "./places.mjs"

const [script, ...rest] = process.argv.slice(2)
if (script === undefined) throw new Error("name the script to run")
try {
  if (!isCompiled("tests")) compile("tests")
} catch (fault) {
  process.stderr.write(`${fault instanceof Error ? fault.message : String(fault)}\n`)
  process.exit(1)
}
const compiled = join(root, ".build-tests", script.replace(/\.ts$/, ".js"))
process.argv.splice(1, process.argv.length - 1, compiled, ...rest)
await import(pathToFileURL(compiled).href)
