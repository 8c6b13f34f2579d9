/**
 * `npm run golden -- FILE.csv` runs the rows of a file of check values, `npm run golden -- FILE.json` a file of orders to
 * repair; `npm run golden -- FOLDER` runs the precedence graphs of a folder. Prints what was run and ends with 1 when
 * anything differs.
 */
import { readFileSync, statSync } from "node:fs"
import { checkGoldenRows } from "../fasteners/golden-rows.ts"
import { checkOrderFile } from "./order-rows.ts"
import { checkScholl } from "./scholl.ts"

const paths = process.argv.slice(2)
if (paths.length === 0) {
  console.error(
    "After `--` name a .csv file of check values, a .json file of orders, or a folder of precedence graphs.",
  )
  process.exit(2)
}
let isRight = true
for (const path of paths) {
  const facts = statSync(path, { throwIfNoEntry: false })
  if (facts === undefined) {
    console.error(`There is no file or folder ${path}.`)
    isRight = false
  } else if (!(await (facts.isDirectory() ? checkScholl(path) : checkFile(path)))) isRight = false
}
process.exitCode = isRight ? 0 : 1

/** Check values come as a table with a head line, orders as JSON. */
function checkFile(path: string): boolean {
  if (path.endsWith(".json") || /^\s*[[{]/.test(readFileSync(path, "utf8"))) return checkOrderFile(path)
  if (path.endsWith(".csv")) return checkGoldenRows(path)
  console.error(`${path} is neither a .csv file of check values nor a .json file of orders.`)
  return false
}
