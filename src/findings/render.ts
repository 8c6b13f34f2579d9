/** Findings as text for a person at a terminal. Colours are the command line's: it passes a `paint`. */
import type { Finding, Place } from "./types.ts"

/** What a stretch of the text is, for whoever colours it. */
export type PaintRole = "error" | "warning" | "note" | "accepted" | "place" | "mark" | "label"

/** Gives `text` with the colour of its role; must not change what stands in it. */
export type Paint = (role: PaintRole, text: string) => string

/** Text of a file of the kit, by its path as findings write it; undefined when it is not a text or not there. */
export type FindText = (file: string) => string | undefined

/** Widest stretch of a source line that is shown. */
const shownColumns = 110

/**
 * Gives one finding as lines: severity, rule and variants; what is wrong; place and source line with marks; why; fix;
 * related places. Control characters of the source are shown as dots, so that a file cannot steer the terminal.
 */
export function renderFinding(finding: Finding, findText: FindText, paint: Paint = (_, text) => text): string {
  const { id, severity, message, where, why, fix, related, variants, accepted } = finding
  const title = accepted === undefined ? severity : `accepted ${severity}`
  const role = accepted === undefined ? severity : "accepted"
  const concerned = variants.length === 0 ? "" : `  ${paint("label", `in ${variants.map(clean).join(", ")}`)}`
  const labelled = (label: string, text: string | undefined): readonly string[] =>
    text === undefined || text === "" ? [] : [`  ${paint("label", label.padEnd(4))} ${clean(text)}`]
  return [
    `${paint(role, title)} ${clean(id)}${concerned}`,
    `  ${clean(message)}`,
    ...renderPlace(where, findText, paint),
    ...labelled("why", why),
    ...labelled("fix", fix),
    ...labelled("kept", accepted),
    ...related.flatMap((one) => [...labelled("see", one.message), ...renderPlace(one.where, findText, paint)]),
  ].join("\n")
}

/** Gives `2 errors, 1 warning`, accepted ones apart; `nothing found` when there is none. */
export function renderCounts(findings: readonly Finding[]): string {
  const count = (name: string, among: readonly Finding[]): readonly string[] =>
    among.length === 0 ? [] : [`${among.length} ${name}${among.length === 1 ? "" : "s"}`]
  const open = findings.filter(({ accepted }) => accepted === undefined)
  const acceptedCount = findings.length - open.length
  const parts = [
    ...count("error", open.filter(isOf("error"))),
    ...count("warning", open.filter(isOf("warning"))),
    ...count("note", open.filter(isOf("note"))),
    ...(acceptedCount === 0 ? [] : [`${acceptedCount} accepted`]),
  ]
  return parts.length === 0 ? "nothing found" : parts.join(", ")
}

const isOf =
  (severity: Finding["severity"]) =>
  (finding: Finding): boolean =>
    finding.severity === severity

/** `kit.yaml:12:5` and, when the text is at hand, its line with marks under the span. */
function renderPlace(where: Place, findText: FindText, paint: Paint): readonly string[] {
  const isWholeFile = where.path.length === 0 && where.line === 1 && where.endLine === 1 && where.endColumn <= 1
  const place = isWholeFile ? clean(where.file) : `${clean(where.file)}:${where.line}:${where.column}`
  const head = `  ${paint("place", place)}`
  const line = isWholeFile ? undefined : findText(where.file)?.split(/\r\n|\n|\r/)[where.line - 1]
  if (line === undefined || line.trim() === "") return [head]
  const end = where.endLine === where.line ? where.endColumn : line.length + 1
  return [head, ...renderLine(line, where.line, where.column, Math.max(end, where.column + 1), paint)]
}

function renderLine(line: string, number: number, column: number, end: number, paint: Paint): readonly string[] {
  // A long line is shown from a little before its marks.
  const first = line.length <= shownColumns ? 0 : Math.max(0, Math.min(column - 21, line.length - shownColumns))
  const shown = clean(line.slice(first, first + shownColumns))
  const markCount = Math.max(1, Math.min(end - column, shown.length - (column - 1 - first)))
  const margin = `${String(number).padStart(6)} | `
  const marks = " ".repeat(Math.max(0, column - 1 - first)) + paint("mark", "^".repeat(markCount))
  return [`${margin}${shown}`, `${" ".repeat(6)} | ${marks}`]
}

/** Tabs become one blank, so that marks stay under their letters; what would move the cursor becomes a dot. */
function clean(text: string): string {
  return text.replaceAll("\t", " ").replace(/[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu, "·")
}
