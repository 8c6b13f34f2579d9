/** Dates, year first (ISO 8601-1). */
import { nameOf } from "../names.ts"
import { hole } from "../read/tree.ts"
import type { ShortForm } from "../schema/forms.ts"
import { fault, quote } from "../tell.ts"

/** Takes `2026-03-02`, also `2026-3-2` and `2026/03/02`; a date with the year last means two things and is refused. */
export const dateForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const [, year = "", month = "", day = ""] = /^\s*(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})\s*$/.exec(tree.written) ?? []
  const isThere =
    Number(month) >= 1 && Number(month) <= 12 && Number(day) >= 1 && Number(day) <= daysOf(Number(year), Number(month))
  if (isThere) return { ...tree, value: `${year}-${month.padStart(2, "0")}-${day.padStart(2, "0")}` }
  const message = `${nameOf(at.path)} is ${quote(tree.written)}; needed is a day, year first`
  at.tell(
    fault("unreadable-value", "error", { message, at: tree.span, path: at.path, fix: "write it like `2026-03-02`" }),
  )
  return hole(tree.span)
}

function daysOf(year: number, month: number): number {
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  if (month === 2) return isLeap ? 29 : 28
  return [4, 6, 9, 11].includes(month) ? 30 : 31
}
