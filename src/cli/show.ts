/** What the terminal shows: colours, one moving line of progress, findings and verdicts. */
import { join } from "node:path"
import type { BuildResult, CheckResult, OnProgress, SourceFile } from "../build/index.ts"
import { type Paint, renderCounts, renderFinding } from "../findings/render.ts"
import type { Finding } from "../findings/types.ts"

type Stream = { readonly isTTY?: boolean; readonly columns?: number; write(text: string): unknown }

const colours: Readonly<Record<Parameters<Paint>[0], number>> = {
  error: 31,
  warning: 33,
  note: 36,
  accepted: 90,
  place: 1,
  mark: 31,
  label: 90,
}

/** Colours for a terminal; none for a file or a pipe, or when `NO_COLOR` is set (no-color.org). */
export function makePaint(stream: Stream, env: Readonly<Record<string, string | undefined>>): Paint {
  const isPlain = stream.isTTY !== true || (env.NO_COLOR ?? "") !== ""
  return (role, text) => (isPlain ? text : `\u001b[${colours[role]}m${text}\u001b[0m`)
}

/** One line that is written over on a terminal; in a file or pipe a line for each task of each variant. */
export function makeProgress(stream: Stream): { readonly on: OnProgress; readonly clear: () => void } {
  let shown = ""
  const clear = (): void => {
    if (stream.isTTY === true && shown !== "") stream.write("\r\u001b[2K")
    shown = ""
  }
  const on: OnProgress = ({ kit, variant, task, done, total }) => {
    const name = [kit, variant ?? ""].filter((part) => part !== "").join("/")
    const words = `${name}${name === "" ? "" : ": "}${task}`
    const line = stream.isTTY === true && total > 1 ? `[${done}/${total}] ${words}` : words
    if (line === shown) return
    if (stream.isTTY === true) stream.write(`\r\u001b[2K${line.slice(0, (stream.columns ?? 80) - 1)}`)
    else stream.write(`${line}\n`)
    shown = line
  }
  return { on, clear }
}

/** All findings of a kit, each with its source lines. Files are named from where the command was given. */
export function showFindings(
  { folder, files, findings }: Pick<CheckResult, "folder" | "files" | "findings">,
  paint: Paint,
): string {
  const texts = new Map(files.map(({ path, text }: SourceFile) => [join(folder, path), text]))
  const placed = <Place extends Pick<Finding, "where">>(one: Place): Place => ({
    ...one,
    where: { ...one.where, file: join(folder, one.where.file) },
  })
  return findings
    .map((one) => ({ ...placed(one), related: one.related.map(placed) }))
    .map((one) => `${renderFinding(one, (file) => texts.get(file), paint)}\n`)
    .join("\n")
}

/** Findings and verdicts of several kits; a blank line keeps one that has findings apart from its neighbours. */
export function joinBlocks(kits: readonly (readonly [findings: string, verdicts: string])[]): string {
  return kits
    .map(([findings, verdicts], index) => {
      const isApart = index > 0 && (findings !== "" || kits[index - 1]?.[0] !== "")
      return [isApart ? "\n" : "", findings, findings === "" || verdicts === "" ? "" : "\n", verdicts].join("")
    })
    .join("")
}

/** One line a variant, then what to do about missing pages and folders that are left over. */
export function showBuild(result: BuildResult): string {
  const width = Math.max(0, ...result.results.map(({ id }) => id.length))
  return [
    `${result.kit}: ${renderCounts(result.findings)}`,
    ...result.results.map(({ id, verdict }) => `  ${id.padEnd(width)}  ${verdict}`),
    ...result.leftOver.map((folder) => `  ${folder} is left over: the kit has no such variant any more`),
    "",
  ].join("\n")
}

/** One line a variant. */
export function showCheck(result: CheckResult): string {
  const width = Math.max(0, ...result.variants.map(({ id }) => id.length))
  const verdict = (errorCount: number): string =>
    errorCount === 0 ? "passes" : `${errorCount} error${errorCount === 1 ? "" : "s"}`
  return [
    `${result.kit}: ${renderCounts(result.findings)}`,
    ...result.variants.map(({ id, errorCount }) => `  ${id.padEnd(width)}  ${verdict(errorCount)}`),
    "",
  ].join("\n")
}

/** How a run ends: 2 for a fault of the tool, 1 for errors (or warnings, when strict), else 0. */
export function exitCodeOf(findings: readonly Finding[], isStrict: boolean): 0 | 1 | 2 {
  const open = findings.filter(({ accepted }) => accepted === undefined)
  if (open.some(({ id }) => id === "tool-fault")) return 2
  const counts = open.some(({ severity }) => severity === "error" || (isStrict && severity === "warning"))
  return counts ? 1 : 0
}
