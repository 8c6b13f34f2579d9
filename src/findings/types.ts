/** The finding: what a rule or a stage reports about a spec, with the place that caused it. Plain data. */

/** A span of text in a file of the kit; lines and columns count from 1, the end is exclusive. */
export type Place = {
  /** Path relative to the kit's folder, with `/`. */
  readonly file: string
  /** Path of names from the root of the spec, e.g. `["joints", "foot", "screws"]`. Empty for a whole file. */
  readonly path: readonly string[]
  readonly line: number
  readonly column: number
  readonly endLine: number
  readonly endColumn: number
}

/**
 * Places of all values of one resolved spec, keyed by their path of names joined with `/`
 * (`joints/foot/screws`, `steps/plate/do/2`). Look up with `placeAt`, which falls back to the nearest owner.
 */
export type Places = Readonly<Record<string, Place>>

export type Severity = "error" | "warning" | "note"

export type Related = { readonly message: string; readonly where: Place }

/** What a picture of a finding would show; `build` draws it for the maker's report. */
export type Scene = {
  readonly subjects: readonly string[]
  readonly pointMm?: readonly [number, number, number]
  readonly direction?: readonly [number, number, number]
  readonly step?: string
}

/** What a rule returns; the registry adds `id`, `severity`, `source` and `variants`. */
export type Report = {
  readonly message: string
  readonly where: Place
  readonly why?: string
  readonly fix?: string
  readonly related?: readonly Related[]
  readonly subjects?: readonly string[]
  readonly scene?: Scene
}

export type Finding = Report & {
  /** The rule: the fault in kebab words. */
  readonly id: string
  readonly severity: Severity
  readonly related: readonly Related[]
  readonly subjects: readonly string[]
  /** Variants concerned; empty when found before variants exist. */
  readonly variants: readonly string[]
  readonly source?: string
  /** The maker's reason when the finding was accepted in the spec. */
  readonly accepted?: string
}

/** What every stage returns: a half-right input still gives a half-right value. */
export type Outcome<Value> = { readonly value: Value; readonly findings: readonly Finding[] }
