/**
 * `npm run golden -- FILE.csv` runs the rows of a file of check values; `npm run golden -- FOLDER` runs the precedence
 * graphs of a folder as kits. Prints what was run and ends with 1 when anything differs.
 */
import { statSync } from "node:fs"
import { checkGoldenRows } from "../fasteners/golden-rows.ts"
import { checkScholl } from "./scholl.ts"

const paths = process.argv.slice(2)
if (paths.length === 0) {
  console.error("Name a .csv file of check values, or a folder of precedence graphs, after `--`.")
  process.exit(2)
}
let isRight = true
for (const path of paths) {
  const facts = statSync(path, { throwIfNoEntry: false })
  if (facts === undefined) {
    console.error(`There is no file or folder ${path}.`)
    isRight = false
  } else if (!(await (facts.isDirectory() ? checkScholl(path) : checkGoldenRows(path)))) isRight = false
}
process.exitCode = isRight ? 0 : 1
