/**
 * Files of orders to repair. A row with `arcs` is a precedence graph with the order of its tasks; a row with `steps` has
 * facts that steps ask for, add and delete. Both were made by trying all orders.
 */
import { readFileSync } from "node:fs"
import { z } from "zod"
import { countOrders, repairOrder } from "../../src/sequence/index.ts"
import type { Plan, Repair } from "../../src/sequence/plan-types.ts"
import { precedencePlan } from "../sequence/order-plans.ts"
import { countLifts, isOrderValid, orderOfRepair, planOfOperators } from "../sequence/plans.ts"

const index = z.int().min(0)
const facts = z.array(z.string())
const expected = {
  minMoves: index.nullable(),
  /** Counts may be large: they are compared as whole numbers of any size. */
  validOrders: index,
}
const arcRow = z.object({
  n: index,
  arcs: z.array(z.tuple([index, index])),
  order: z.array(index),
  optimalOrders: index.nullish(),
  ...expected,
})
const stepRow = z.object({
  init: facts,
  goal: facts,
  steps: z.array(z.object({ id: z.string(), pre: facts, add: facts, del: facts })),
  optimalOrders: index.nullish(),
  ...expected,
})

type OrderRow = {
  readonly plan: Plan
  readonly isPlain: boolean
  readonly minMoves: number | null
  readonly validOrders: number
  readonly optimalOrders: number | null | undefined
}

/** Rows of a file, or what is wrong with it in one line. */
export function readOrderRows(text: string): readonly OrderRow[] | { readonly problem: string } {
  let found: unknown
  try {
    found = JSON.parse(text)
  } catch {
    return { problem: "it is not JSON" }
  }
  if (!Array.isArray(found) || found.length === 0) return { problem: "it is not a list of rows" }
  const rows: OrderRow[] = []
  for (const [number, row] of found.entries()) {
    const read = readRow(row)
    if ("problem" in read) return { problem: `row ${number + 1} ${read.problem}` }
    rows.push(read)
  }
  return rows
}

function readRow(row: unknown): OrderRow | { readonly problem: string } {
  if (typeof row !== "object" || row === null) return { problem: "is not an object" }
  if ("arcs" in row) {
    const { data, error } = arcRow.safeParse(row)
    if (data === undefined) return { problem: describe(row, error) }
    const { n, order, arcs } = data
    if (order.length !== n || new Set(order).size !== n || order.some((task) => task >= n))
      return { problem: `has an \`order\` that is not each of 0 to ${n - 1} once` }
    if (arcs.flat().some((task) => task >= n))
      return { problem: `has an arc to a task that is not one of 0 to ${n - 1}` }
    return { ...pick(data), plan: precedencePlan(order.length, arcs, order), isPlain: true }
  }
  if (!("steps" in row)) return { problem: "has neither `arcs` nor `steps`" }
  const { data, error } = stepRow.safeParse(row)
  if (data === undefined) return { problem: describe(row, error) }
  if (new Set(data.steps.map(({ id }) => id)).size < data.steps.length) return { problem: "has two steps of one id" }
  return { ...pick(data), plan: planOfOperators(data.init, data.goal, data.steps), isPlain: false }
}

function pick({ minMoves, validOrders, optimalOrders }: z.infer<typeof arcRow> | z.infer<typeof stepRow>): {
  readonly minMoves: number | null
  readonly validOrders: number
  readonly optimalOrders: number | null | undefined
} {
  return { minMoves, validOrders, optimalOrders }
}

/** The first thing that is missing or of another kind. */
function describe(row: object, error: z.ZodError): string {
  const path = error.issues[0]?.path ?? []
  const [key = ""] = path
  return String(key) in row ? `has a \`${path.join("/")}\` of another kind` : `lacks \`${String(key)}\``
}

/** What differs from a row; empty when it passes. */
export function judgeOrderRow({ plan, isPlain, minMoves, validOrders, optimalOrders }: OrderRow): readonly string[] {
  const repair = repairOrder(plan)
  const count = countOrders(plan)
  const wrong: string[] = []
  const moves = movesOf(repair)
  if (moves !== minMoves) wrong.push(`moves ${String(moves)}, the row has ${String(minMoves)}`)
  if (repair.kind === "moved" && !repair.isProved) wrong.push(`only ${repair.atLeast} moves are proved`)
  const order = orderOfRepair(plan, repair)
  if (order !== undefined) {
    if (!isOrderValid(plan, order)) wrong.push(`the order ${order.join(" ")} breaks a need`)
    const lifts = countLifts(order)
    if (lifts !== moves) wrong.push(`the order ${order.join(" ")} differs by ${lifts} lifts`)
  }
  if (repair.kind === "moved") {
    const told = repair.chains.reduce((sum, { steps }) => sum + steps.length - 1, 0)
    if (isPlain ? told !== moves : told > repair.moves.length) wrong.push(`its chains prove ${told} moves`)
    if (typeof optimalOrders === "number" && (repair.others === "none") !== (optimalOrders === 1))
      wrong.push(`other answers: ${repair.others}, the row has ${optimalOrders} in all`)
  }
  if (count.kind !== "exact" || BigInt(count.count) !== BigInt(validOrders))
    wrong.push(`valid orders ${count.kind} ${count.count}, the row has ${validOrders}`)
  return wrong
}

function movesOf(repair: Repair): number | null | "not found" {
  if (repair.kind === "moved") return repair.moves.length
  if (repair.kind === "valid") return 0
  return repair.kind === "impossible" ? null : "not found"
}

/** Runs one file and prints the rows that differ; true when all pass. */
export function checkOrderFile(path: string): boolean {
  const rows = readOrderRows(readFileSync(path, "utf8"))
  if ("problem" in rows) {
    console.error(`${path} is no file of orders: ${rows.problem}.`)
    return false
  }
  let failed = 0
  for (const [number, row] of rows.entries()) {
    const wrong = judgeOrderRow(row)
    if (wrong.length === 0) continue
    failed += 1
    console.log(`row ${number + 1}: ${wrong.join("; ")}`)
  }
  console.log(`${path}: ${rows.length - failed} passed, ${failed} failed`)
  return failed === 0
}
