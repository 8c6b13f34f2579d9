import { mkdirSync, readFileSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { newKit } from "../../src/build/new-kit.ts"
import { orderKit } from "../../src/build/order-kit.ts"
import { repairKit } from "../../src/build/repair-kit.ts"
import { reorderSteps } from "../../src/spec/edit/reorder-steps.ts"
import { makeTempFolder } from "./temp-folder.ts"

/** The starter kit, with its bytes changed, its two steps swapped, and what stood there before. */
function makeFaultyKit(change: (text: string) => string, encoding: "utf8" | "latin1" = "utf8") {
  const folder = join(makeTempFolder(), "arm")
  newKit(folder)
  const file = join(folder, "kit.yaml")
  const text = change(readFileSync(file, "utf8"))
  const swapped = reorderSteps(text, ["tube", "seat"])
  if (!("text" in swapped)) throw new Error(swapped.refusal.message)
  writeFileSync(file, Buffer.from(swapped.text, encoding))
  return { folder, file, right: Buffer.from(text, encoding) }
}

test.each([
  ["line feeds", (text: string) => text, "utf8"],
  [
    "CR LF, a byte order mark and no last line end",
    (text: string) => `\ufeff${text.trimEnd().replaceAll("\n", "\r\n")}`,
    "utf8",
  ],
  ["letters beyond ASCII", (text: string) => text.replace("steps:", "steps: # Größe → 𝄞"), "utf8"],
  ["Windows-1252 bytes", (text: string) => text.replace("steps:", "steps: # Gr\u00f6\u00dfe \u0080"), "latin1"],
] as const)("a repaired file with %s is the right one, byte for byte", async (_, change, encoding) => {
  const { folder, file, right } = makeFaultyKit(change, encoding)
  const { isWritten, problem, refusals, stillOpen } = await repairKit(folder, { isWritten: true })
  expect({ isWritten, problem, refusals, stillOpen }).toEqual({
    isWritten: true,
    problem: undefined,
    refusals: [],
    stillOpen: [],
  })
  expect(readFileSync(file).equals(right)).toBe(true)
})

test("nothing is written without being asked, nor over a file that changed", async () => {
  const { folder, file } = makeFaultyKit((text) => text)
  const before = readFileSync(file)
  expect(await repairKit(folder, { isWritten: false })).toMatchObject({ isWritten: false, changed: ["kit.yaml"] })
  const onReady = (): void => writeFileSync(file, "edited")
  const late = await repairKit(folder, { isWritten: true, onReady })
  expect([late.isWritten, late.problem]).toEqual([false, expect.stringMatching(/^`kit\.yaml` changed/)])
  expect([readFileSync(file, "utf8"), before.length > 100]).toEqual(["edited", true])
})

test("a repair that would need a variant's line that nobody can choose is refused with that line", async () => {
  const { folder } = makeFaultyKit((text) => text)
  mkdirSync(join(folder, "variants"))
  // The pause belongs between seat and tube; nothing says where it stands, so it stands last.
  writeFileSync(
    join(folder, "variants", "round-40.yaml"),
    "variant: round-40\nsteps:\n  pause: { new: true, do: [wait: 5 min] }\n  tube: { needs-after: { pause: it must rest } }\n",
  )
  const { refusals, isWritten, words } = await repairKit(folder, { isWritten: true })
  expect(refusals.map(({ where, fix }) => [where.file, where.line, fix])).toEqual([
    ["variants/round-40.yaml", 3, expect.stringMatching(/^in step `pause`, write `place-after: seat` by hand$/)],
  ])
  expect([isWritten, words.length > 0]).toEqual([false, true])
})

test("an order is told by data: needs with their step, room, count", async () => {
  const folder = join(makeTempFolder(), "arm")
  newKit(folder)
  const { orders, findings, isFaulty } = await orderKit(folder)
  expect([findings, isFaulty, orders.length]).toEqual([[], false, 1])
  const [order] = orders
  expect(order?.steps.map(({ number, id }) => `${number} ${id}`)).toEqual(["1 seat", "2 tube"])
  expect(order?.report.validOrders).toEqual({ kind: "exact", count: "1" })
  expect(order?.report.steps.map(({ earliest, latest }) => [earliest, latest])).toEqual([
    [0, 0],
    [1, 1],
  ])
  expect(order?.report.steps[1]?.needs.some(({ from }) => from === 0)).toBe(true)
})
