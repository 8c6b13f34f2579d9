import { expect, test } from "vitest"
import { type KitFile, proveKit } from "../../src/build/prove.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { kitFolders, readKitFiles, readKitModel } from "./kit-files.ts"

const kernel = await loadKernel()

/** Two steps of which the second depends on the first; `act` is where the fault stands once they are swapped. */
type Swap = { readonly folder: string; readonly first: string; readonly second: string; readonly act: string }

const cradle = "guides/pump-cradle"
const swaps: readonly Swap[] = [
  { folder: cradle, first: "make-dead", second: "dress-left", act: "unscrew: pump-driver.left" },
  { folder: cradle, first: "dress-left", second: "foot-left", act: "start: left-foot" },
  { folder: cradle, first: "pad-up", second: "foot-left", act: "place: tube-saddle.left" },
  { folder: cradle, first: "foot-right", second: "hang-up", act: "strap: hoop" },
  { folder: cradle, first: "run-well-lead", second: "close-up", act: "connect: well-lead.plug to" },
  { folder: cradle, first: "run-sun-lead", second: "close-up", act: "connect: sun-lead.head to" },
  { folder: cradle, first: "close-up", second: "go-live", act: "restore: pump-driver" },
  { folder: "tests/guides/rain-gauge-arm", first: "lead", second: "hood", act: "connect: lead.plug to" },
  { folder: "tests/guides/post-lamp", first: "mount-hook", second: "look-over", act: "inspect: all" },
]

test.each(kitFolders)("%s as it stands has nothing to report", (folder) => {
  expect(prove(folder, readKitFiles(folder)).filter(({ severity }) => severity !== "note")).toEqual([])
})

test.each(swaps)("$folder: $second before $first is one finding that names both", ({ folder, first, second, act }) => {
  const files = readKitFiles(folder)
    .filter(({ path }) => path === "kit.yaml")
    .map((file) => ({ ...file, bytes: Buffer.from(swapSteps(textOf(file), first, second)) }))
  const found = prove(folder, files).filter(({ severity }) => severity !== "note")
  const told = found.map(({ id, message, where, why, fix, related }) => ({
    id,
    line: textOf(files[0]).split("\n")[where.line - 1]?.trim(),
    names: [first, second].filter((step) =>
      [message, why, fix, ...related.map((one) => one.message)].join(" ").includes(`\`${step}\``),
    ),
  }))
  expect(told).toEqual([{ id: expect.any(String), line: expect.stringContaining(act), names: [first, second] }])
})

function prove(folder: string, files: readonly KitFile[]) {
  const readModel = (file: string) => {
    const bytes = readKitModel(folder, file)
    return bytes === undefined ? { problem: { message: `there is no ${file}` } } : { bytes }
  }
  return proveKit(files, { kernel, readModel }).findings
}

function textOf(file: KitFile | undefined): string {
  return Buffer.from(file?.bytes ?? []).toString("utf8")
}

/** Swaps two steps as an author would, with all their lines. */
function swapSteps(text: string, first: string, second: string): string {
  const lines = text.split("\n")
  const one = blockOf(lines, first)
  const other = blockOf(lines, second)
  return [
    ...lines.slice(0, one.from),
    ...lines.slice(other.from, other.to),
    ...lines.slice(one.to, other.from),
    ...lines.slice(one.from, one.to),
    ...lines.slice(other.to),
  ].join("\n")
}

function blockOf(lines: readonly string[], step: string): { readonly from: number; readonly to: number } {
  const from = lines.lastIndexOf(`  ${step}:`)
  const length = lines.slice(from + 1).findIndex((line) => !line.startsWith("    "))
  return { from, to: length < 0 ? lines.length : from + 1 + length }
}
