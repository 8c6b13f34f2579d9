/** Reads the tables beside this file: values with a comma or a quote stand in double quotes (RFC 4180). */
import { readFileSync } from "node:fs"

/** Gives each row as a record of its columns, named by the first line. */
export function readCsv(name: string): readonly Readonly<Record<string, string>>[] {
  const text = readFileSync(new URL(name, import.meta.url), "utf8")
  const [head = [], ...rows] = text
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map(splitLine)
  return rows.map((row) => Object.fromEntries(head.map((column, index) => [column, row[index] ?? ""])))
}

function splitLine(line: string): readonly string[] {
  return [...line.matchAll(/(?:^|,)(?:"((?:[^"]|"")*)"|([^,]*))/g)].map(([, quoted, plain]) =>
    (quoted?.replaceAll('""', '"') ?? plain ?? "").trim(),
  )
}
