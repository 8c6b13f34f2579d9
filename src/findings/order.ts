/** One order and one merged list of findings, so that output is stable. */
import type { Finding, Report, Severity } from "./types.ts"

const severityRank: Readonly<Record<Severity, number>> = { error: 0, warning: 1, note: 2 }

/** Makes a finding outside the rule registry (loading, resolving, drawing): fills in what was left out. */
export function finding(id: string, severity: Severity, report: Report & { readonly source?: string }): Finding {
  return { related: [], subjects: [], ...report, id, severity, variants: [] }
}

/** Sorted by file, line, column, severity, id, message. */
function sortFindings(findings: readonly Finding[]): readonly Finding[] {
  const compareText = (one: string, other: string): number => (one < other ? -1 : one > other ? 1 : 0)
  return [...findings].sort(
    (one, other) =>
      compareText(one.where.file, other.where.file) ||
      one.where.line - other.where.line ||
      one.where.column - other.where.column ||
      severityRank[one.severity] - severityRank[other.severity] ||
      compareText(one.id, other.id) ||
      compareText(one.message, other.message),
  )
}

/** Equal findings of several variants become one that names them all; the result is sorted. */
export function mergeFindings(findings: readonly Finding[]): readonly Finding[] {
  const merged = new Map<string, Finding>()
  for (const one of findings) {
    const key = JSON.stringify([one.id, one.severity, one.message, one.where, one.why ?? "", one.accepted ?? ""])
    const earlier = merged.get(key)
    const variants = [...new Set([...(earlier?.variants ?? []), ...one.variants])]
    merged.set(key, earlier === undefined ? one : { ...earlier, variants })
  }
  return sortFindings([...merged.values()])
}
