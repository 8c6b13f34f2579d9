/** Where a number in a table comes from. Every row of every table carries one. */

export type Origin = {
  /** `ISO 4762`, or `common practice` when no standard gives it. */
  readonly standard: string
  readonly edition: string
  /** Table and columns, e.g. `table 1: dk max, k max, s nom`. */
  readonly table: string
  /**
   * `compared`: equal in at least one second source that was read. `memory`: written down from memory of the
   * standard, not compared with its text. `practice`: a rule of thumb, no standard behind it.
   */
  readonly confidence: "compared" | "memory" | "practice"
}

export type Sourced<Row> = Row & { readonly origin: Origin }

/** Gives every row its origin. */
export function withOrigin<Row extends object>(origin: Origin, rows: readonly Row[]): readonly Sourced<Row>[] {
  return rows.map((row) => ({ ...row, origin }))
}

/** `ISO 4762:2004, table 1 (from memory)`: an origin in words, for calculations and reports. */
export function nameOrigin(origin: Origin): string {
  const edition = origin.edition === "" ? "" : `:${origin.edition}`
  const doubt = { compared: "", memory: " (from memory)", practice: " (common practice)" }[origin.confidence]
  return `${origin.standard}${edition}, ${origin.table}${doubt}`
}
