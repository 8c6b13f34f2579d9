/** Files of check values: rows with named inputs, a value, how near a result must come, and the source. */

export type GoldenRow = {
  readonly id: string
  readonly quantity: string
  /** Thread or size, e.g. `M4`, `M8x1`, `T30`; empty when there is none. */
  readonly size: string
  /** `P=0.5;D1_max=2.599` as names and values; a part without `=` stands under its own text with the value "". */
  readonly inputs: Readonly<Record<string, string>>
  readonly value: string
  readonly unit: string
  readonly tolerance: string
  readonly confidence: string
}

/** Reads a file of check values; lines with `#` in front are its sources. */
export function readGoldenRows(text: string): readonly GoldenRow[] {
  const lines = text.split(/\r?\n/).filter((line) => line !== "" && !line.startsWith("#"))
  return lines.slice(1).map((line) => {
    const [id = "", quantity = "", size = "", inputs = "", value = "", unit = "", tolerance = "", , confidence = ""] =
      splitCells(line)
    return { id, quantity, size, inputs: readInputs(inputs), value, unit, tolerance, confidence }
  })
}

/** Cells of one line; a quoted cell may hold commas, and a doubled quote stands for one. */
function splitCells(line: string): readonly string[] {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(
    ([, quoted, plain]) => quoted?.replaceAll('""', '"') ?? plain ?? "",
  )
}

function readInputs(text: string): Readonly<Record<string, string>> {
  return Object.fromEntries(
    text
      .split(";")
      .filter((part) => part !== "")
      .map((part) => {
        const at = part.search(/(?<![<>])=/)
        return at < 0 ? [part, ""] : [part.slice(0, at), part.slice(at + 1)]
      }),
  )
}

/**
 * True when a result comes as near to the row's value as its tolerance says: `abs:`, `rel:`, `sf:` figures, `exact`,
 * `range:lo..hi`, and `text` (equal words, or equal numbers).
 */
export function isNear(row: GoldenRow, result: number | string | boolean): boolean {
  const wanted = Number(row.value)
  const given = typeof result === "number" ? result : Number.NaN
  const [kind = "", argument = ""] = row.tolerance.split(":")
  switch (kind) {
    case "abs":
      return Math.abs(given - wanted) <= Number(argument) * (1 + 1e-9) + 1e-12
    case "rel":
      return Math.abs(given - wanted) <= Math.abs(wanted) * Number(argument) * (1 + 1e-9)
    case "sf":
      return given.toPrecision(Number(argument)) === wanted.toPrecision(Number(argument))
    case "range": {
      const [low, high] = argument.split("..").map(Number)
      return low !== undefined && high !== undefined && given >= low && given <= high
    }
    default:
      return typeof result === "number" ? Math.abs(given - wanted) <= 1e-9 : String(result) === row.value
  }
}
