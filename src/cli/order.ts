/** The order of steps, and its repair, as text for a person at a terminal. */
import { join } from "node:path"
import type {
  NumberedStep,
  OrderCount,
  OrderOfVariants,
  OrderResult,
  RepairResult,
  StepFreedom,
} from "../build/index.ts"
import { describeFact } from "../build/index.ts"
import type { Paint } from "../findings/render.ts"
import { wrapText } from "./wrap.ts"

/** One block for each group of variants with equal answers; then what is to be said about the kit. */
export function showOrder(result: OrderResult, paint: Paint): string {
  const { kit, variants, orders, isFaulty, otherErrorCount, folder } = result
  const blocks = orders.map((order) => showVariants(kit, variants.length, order, paint))
  const ends = [
    ...(isFaulty
      ? [
          orders.length === 0
            ? `${kit}: the order cannot be done as it stands.`
            : `${kit}: in the other variants the order cannot be done as it stands.`,
          `To see the smallest change that mends it: kitleaf order ${folder} --repair`,
        ]
      : []),
    ...(otherErrorCount === 0
      ? []
      : [
          `${kit}: ${countOf(otherErrorCount, "error")} that ${otherErrorCount === 1 ? "is" : "are"} not about the order; see \`kitleaf check ${folder}\`.`,
        ]),
  ]
  return [...blocks, ...(ends.length === 0 ? [] : [`${ends.map((line) => wrapText("", line)).join("\n")}\n`])].join(
    "\n",
  )
}

function showVariants(kit: string, variantCount: number, order: OrderOfVariants, paint: Paint): string {
  const { variants, steps, report } = order
  const isAll = variants.length === variantCount
  const [only = ""] = variants
  const name =
    isAll && variantCount > 1 ? `all ${variantCount} variants` : variants.length === 1 ? only : variants.join(", ")
  const title = paint("place", wrapText("", `${kit}, ${name}`))
  const how = wrapText("", "How far a step could move (`room`) is told for all others keeping their order.")
  const listed = steps.map((step, index) => showStep(step, report.steps[index], steps, paint))
  const ends = [sayCount(report.validOrders, steps.length), sayWidth(report.width, steps.length)]
  return `${[title, how, "", ...listed, ...ends.map((line) => wrapText("", line))].join("\n")}\n`
}

function showStep(
  { number, id, title }: NumberedStep,
  freedom: StepFreedom | undefined,
  steps: readonly NumberedStep[],
  paint: Paint,
): string {
  const head = `${String(number).padStart(3)}  `
  const lines = [wrapText(head, `${id}: ${title}`).replace(`${head}${id}`, `${head}${paint("place", id)}`)]
  if (freedom !== undefined) {
    lines.push(
      ...sayNeeds(freedom, steps).map((line, index) => wrapText(index === 0 ? "     needs  " : " ".repeat(12), line)),
    )
    lines.push(...sayFreedom(freedom).map(([label, text]) => wrapText(`     ${label.padEnd(5)}  `, text)))
  }
  return `${lines.join("\n")}\n`
}

/** What a step needs from each other step; what is so on arrival is left out. */
function sayNeeds({ needs }: StepFreedom, steps: readonly NumberedStep[]): readonly string[] {
  const byStep = new Map<number, Set<string>>()
  for (const { need, from } of needs) {
    if (from === undefined) continue
    const facts = byStep.get(from) ?? new Set()
    byStep.set(from, facts.add(describeFact(need.fact)))
  }
  if (byStep.size === 0) return ["nothing that another step gives"]
  return [...byStep]
    .sort(([one], [other]) => one - other)
    .map(([from, facts]) => `from ${from + 1} \`${steps[from]?.id ?? ""}\`: ${[...facts].join(", ")}`)
}

function sayFreedom({ earliest, latest, heldBy }: StepFreedom): readonly (readonly [label: string, text: string])[] {
  const [first, last] = [earliest + 1, latest + 1]
  const room = first === last ? "it can stand only here" : `it could stand anywhere from ${first} to ${last}`
  return [
    ["room", room],
    ...(heldBy.before === undefined ? [] : [["", `not earlier: ${heldBy.before.reason}`] as const]),
    ...(heldBy.after === undefined ? [] : [["", `not later: ${heldBy.after.reason}`] as const]),
  ]
}

function sayCount({ kind, count }: OrderCount, stepCount: number): string {
  const grouped = count.replace(/\B(?=(\d{3})+$)/g, " ")
  const of = `of these ${countOf(stepCount, "step")}`
  if (kind === "at-least") return `At least ${grouped} orders ${of} are valid.`
  return count === "1" ? `This is the only valid order ${of}.` : `${grouped} orders ${of} are valid.`
}

function sayWidth(width: number, stepCount: number): string {
  if (stepCount < 2) return ""
  return width <= 1
    ? "Each step waits for the one before it."
    : `Up to ${width} steps are free of one another at once: none of them waits for another.`
}

/** The repair: what moves, why not less, the order before and after, and what stays open. */
export function showRepair(result: RepairResult, paint: Paint): string {
  const { kit, folder, repair, words, before, after, findings, stillOpen, changed, isWritten, problem, refusals } =
    result
  if (repair === undefined) return ""
  if (repair.kind === "valid") {
    return findings.length === 0
      ? `${kit}: the order is valid; no step needs to move.\n`
      : `${wrapText("", `${kit}: no move of whole steps mends this. The findings above say what to change.`)}\n`
  }
  const told = words.map((line) => wrapText("  ", line))
  if (repair.kind !== "moved") return `${[`${kit}:`, ...told].join("\n")}\n`
  const open =
    stillOpen.length === 0
      ? ["After the move the order is valid in every variant."]
      : [
          "Still open after the move:",
          ...stillOpen.map(({ message, variants, where }) =>
            wrapText("  ", `${message} (${where.file}:${where.line}, ${variants.join(", ")})`),
          ),
        ]
  const files = changed.map((path) => join(folder, path))
  const ends = isWritten
    ? files.map((file) => `wrote ${file}`)
    : problem !== undefined
      ? [problem]
      : refusals.length > 0
        ? ["Nothing was written."]
        : [`Nothing was written. To write ${files.join(" and ")}: kitleaf order ${folder} --repair --write`]
  return `${[
    `${kit}:`,
    ...told,
    "",
    ...showDiff(
      before,
      after,
      repair.moves.map(({ step }) => before[step]?.id ?? ""),
      paint,
    ),
    "",
    ...(refusals.length > 0 ? [] : open),
    ...ends.map((line) => wrapText("", line)),
  ].join("\n")}\n`
}

/** Old and new numbers side by side: a moved step stands twice, with `-` where it was and `+` where it goes. */
function showDiff(
  before: readonly NumberedStep[],
  after: readonly NumberedStep[],
  moved: readonly string[],
  paint: Paint,
): readonly string[] {
  const isMoved = new Set(moved)
  const lines: string[] = []
  const line = (
    mark: string,
    old: number | undefined,
    now: number | undefined,
    { id, title }: NumberedStep,
  ): string => {
    const numbers = `${String(old ?? "").padStart(4)} ${String(now ?? "").padStart(4)}`
    const text = `${mark}${numbers}  ${id}: ${title}`
    return text.length > 80 ? `${text.slice(0, 79)}…` : text
  }
  let index = 0
  const takeOld = (): void => {
    for (let old = before[index]; old !== undefined && isMoved.has(old.id); old = before[index]) {
      lines.push(paint("error", line("-", old.number, undefined, old)))
      index += 1
    }
  }
  for (const step of after) {
    if (isMoved.has(step.id)) {
      lines.push(paint("note", line("+", undefined, step.number, step)))
      continue
    }
    takeOld()
    lines.push(line(" ", before[index]?.number, step.number, step))
    index += 1
  }
  takeOld()
  return lines
}

function countOf(count: number, name: string): string {
  return `${count} ${name}${count === 1 ? "" : "s"}`
}
