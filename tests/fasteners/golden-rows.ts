/** Runs files of check values against the code: which rows it computes, and whether each comes near enough. */
import { readFileSync } from "node:fs"
import { type GoldenRow, isNear, readGoldenRows } from "./golden-csv.ts"
import { classes, engagement, type Quantities, screws, threads, torques } from "./golden-metal.ts"
import { cables, geometry, plastics, ties, tubes } from "./golden-soft.ts"

const quantities: Quantities = {
  ...threads,
  ...classes,
  ...torques,
  ...screws,
  ...engagement,
  ...plastics,
  ...ties,
  ...tubes,
  ...cables,
  ...geometry,
}

export type GoldenResult = {
  readonly run: number
  readonly notComputed: number
  /** Rows that differ, in words. */
  readonly different: readonly string[]
  /** Rows that differ and whose own source calls them contested. */
  readonly contested: readonly string[]
}

/** Runs all rows of one file. A row whose quantity, or whose size, no table or formula covers is not computed. */
export function runGoldenRows(text: string): GoldenResult {
  const results = readGoldenRows(text).map((row) => ({ row, result: quantities[row.quantity]?.(row) }))
  const computed = results.flatMap(({ row, result }) =>
    result === undefined || Number.isNaN(result) ? [] : [{ row, result }],
  )
  const differing = computed.filter(({ row, result }) => !isNear(row, result))
  const isContested = ({ row }: { readonly row: GoldenRow }): boolean => row.confidence.includes("contested")
  const tell = ({ row, result }: { readonly row: GoldenRow; readonly result: number | string | boolean }): string =>
    `${row.id} ${row.quantity} ${row.size}: ${String(result)} ${row.unit}, the row has ${row.value} (${row.tolerance})`
  return {
    run: computed.length,
    notComputed: results.length - computed.length,
    different: differing.filter((one) => !isContested(one)).map(tell),
    contested: differing.filter(isContested).map(tell),
  }
}

/** Runs one file and prints what was run; true when no row differs. */
export function checkGoldenRows(path: string): boolean {
  const { run, notComputed, different, contested } = runGoldenRows(readFileSync(path, "utf8"))
  console.log(`${path}: ${run} rows run, ${notComputed} not yet computed, ${different.length} differ`)
  for (const line of contested) console.log(`  contested by its source: ${line}`)
  for (const line of different) console.log(`  differs: ${line}`)
  return different.length === 0
}
