/** `npm run accept`: what the last run of the tests gave becomes what is expected. Look at `out/changed.html` first. */
import { readdirSync, renameSync, rmSync, statSync } from "node:fs"
import { join } from "node:path"
import { expectedFolder, isChangedName } from "./expected-files.mjs"

const changed = readdirSync(expectedFolder, { recursive: true, encoding: "utf8" }).filter(isChangedName).sort()
for (const name of changed) {
  const path = join(expectedFolder, name)
  const expected = path.replace(/\.changed(\.\w+)$/, "$1")
  // An empty one stands for an output that is no longer given.
  if (statSync(path).size > 0) renameSync(path, expected)
  else for (const gone of [path, expected]) rmSync(gone)
  console.log(name)
}
console.log(changed.length === 0 ? "nothing has changed" : `${changed.length} taken over`)
