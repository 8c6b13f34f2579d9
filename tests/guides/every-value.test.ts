/**
 * A table value x document: one value of the demo kit is changed at a time; the outputs named beside it change, all
 * others keep their bytes. Variants that the change cannot touch keep their whole proof, from which all else is made.
 */
import { beforeAll, expect, test } from "vitest"
import { readAssets } from "../../src/build/assets.ts"
import { drawProof, makeDocuments } from "../../src/build/documents.ts"
import { type KitFile, proveKit } from "../../src/build/prove.ts"
import type { Proof } from "../../src/document/types.ts"
import { loadKernel, readStl, writeStl } from "../../src/solids/index.ts"
import type { Mesh } from "../../src/solids/types.ts"
import { readKitFiles, readKitModel } from "./kit-files.ts"
import { listLines } from "./page-lines.ts"
import { makeBox } from "./solids.ts"

const folder = "guides/pump-cradle"
const base = "round-tube-32"
const kernel = await loadKernel()
const assets = readAssets()
const files = readKitFiles(folder)
/** The kit without its variant files is the base variant alone. */
const baseFiles = files.filter(({ path }) => path === "kit.yaml")

type Change = {
  readonly value: string
  /** Text that stands exactly once in `kit.yaml`, and what it becomes. */
  readonly from: string
  readonly to: string
  /** Outputs of the base variant that change; `guide` stands for screen, A4 and Letter. */
  readonly changes: readonly string[]
  /** What every line of the guide and the card that is new holds; left out where only figures change. */
  readonly where?: RegExp
}

/**
 * The pads are bent to the tube, so its size shows from the step on in which they are stuck.
 */
const withTube = [
  "overview",
  "pad-up",
  "dress-right",
  "foot-left",
  "foot-right",
  "hang-up",
  "run-well-lead",
  "run-sun-lead",
  "close-up",
]

const table: readonly Change[] = [
  {
    value: "length of a screw",
    from: "2 x thread-forming pan M4x18 PZ2",
    to: "2 x thread-forming pan M4x20 PZ2",
    changes: ["guide", "card", "report", "foot-left"],
    // More thread in the plastic also bears more torque.
    where: /M4 x 20|20 mm|1\.7 N·m/,
  },
  {
    value: "count of spare screws",
    from: "tried: on five prints\n    bag: C\n    spare: 1",
    to: "tried: on five prints\n    bag: C\n    spare: 2",
    changes: ["guide", "card"],
    where: /^[62] ×|^2$|2 spare|spare/,
  },
  {
    value: "tube",
    from: "tube: round 32, length",
    to: "tube: round 31.8, length",
    changes: ["guide", "report", ...withTube],
  },
  {
    value: "torque",
    from: "torque: 0.4",
    to: "torque: 0.35",
    changes: ["guide", "card", "report"],
    where: /0\.35 N·m/,
  },
  {
    value: "name of a part",
    from: "name: Rain hood",
    to: "name: Weather hood",
    changes: ["guide", "card"],
    where: /weather hood/i,
  },
  {
    value: "opening of a passage",
    from: "opening: 20 x 12",
    to: "opening: 22 x 12",
    changes: ["guide", "report"],
    where: /22 × 12/,
  },
  {
    value: "length of a tie",
    from: "ties: 4 x 4.8x250",
    to: "ties: 4 x 4.8x280",
    changes: ["guide", "card", "report"],
    where: /280/,
  },
  {
    value: "text of a step",
    from: "Pinch no lead.",
    to: "Pinch neither lead.",
    changes: ["guide"],
    where: /Pinch neither lead\./,
  },
  {
    value: "what a hazard asks for",
    from: "Stand on a step that cannot tip.",
    to: "Stand on a platform that cannot tip.",
    changes: ["guide", "card"],
    where: /platform that cannot tip/,
  },
  {
    value: "revision",
    from: "id: C, date: 2026-04-20",
    to: "id: D, date: 2026-04-20",
    changes: ["guide", "card", "report"],
    where: /revision D/i,
  },
]

let before: ReadonlyMap<string, string>
beforeAll(() => {
  before = publish(prove(baseFiles))
})

test.each(table)("$value", ({ from, to, changes, where }) => {
  const after = publish(prove(replaceOnce(baseFiles, "kit.yaml", from, to)))
  expect(changed(before, after)).toEqual([...changes].sort())
  const lines = ["guide", "card"].flatMap((name) => newLines(before.get(name) ?? "", after.get(name) ?? ""))
  expect(lines.filter((line) => where?.test(line) !== true)).toEqual([])
  expect(lines.length > 0).toBe(where !== undefined)
})

test("a mesh", () => {
  const notched = writeStl(cutNotch(readKitModel(folder, "hood.stl") ?? new Uint8Array()))
  const after = publish(prove(baseFiles, (file) => (file === "hood.stl" ? notched : undefined)))
  expect(changed(before, after)).toEqual(["close-up", "guide", "overview", "run-sun-lead", "run-well-lead"])
})

test("a value of one variant file leaves the other variants as they are", () => {
  const provedBefore = prove(files)
  const proved = prove(replaceOnce(files, "variants/round-tube-48.yaml", "4 x 4.8x300", "4 x 4.8x370"))
  const touched = proved.filter((proof, index) => !isEqual(proof, provedBefore[index]))
  expect(touched.map(({ kit }) => kit.variant.id)).toEqual(["round-tube-48"])
})

/** The hood without a corner of its drip edge. */
function cutNotch(bytes: Uint8Array): Mesh {
  const hood = readStl(bytes, "hood.stl")
  const cut = "mesh" in hood ? kernel.subtract(hood.mesh, [makeBox([40, -90, 60], [60, -76, 70])]) : undefined
  if (cut === undefined) throw new Error("the hood is not closed")
  return cut
}

function prove(
  kitFiles: readonly KitFile[],
  replaced: (file: string) => Uint8Array | undefined = () => undefined,
): readonly Proof[] {
  const readModel = (file: string) => {
    const bytes = replaced(file) ?? readKitModel(folder, file)
    return bytes === undefined ? { problem: { message: `there is no ${file}` } } : { bytes }
  }
  return proveKit(kitFiles, { kernel, readModel }).proofs
}

/** Every output of the base variant by name, drawings by their step. */
function publish(proofs: readonly Proof[]): ReadonlyMap<string, string> {
  const proof = proofs.find(({ kit }) => kit.variant.id === base)
  if (proof === undefined) throw new Error(`there is no variant ${base}`)
  const { drawings } = drawProof(proof, kernel)
  const documents = makeDocuments(proof, drawings, assets)
  const page = (path: string): string =>
    documents.pages.find((one) => one.path === path)?.html ??
    documents.prints.find((one) => one.path === path)?.job.html ??
    ""
  const steps = ["overview", ...Object.keys(drawings.steps)]
  return new Map([
    ["guide", ["guide.html", "guide.a4.pdf", "guide.letter.pdf"].map(page).join("\n")],
    ["card", page("card.pdf")],
    ["report", page("report.html")],
    ...documents.drawings.map(({ svg }, index): [string, string] => [steps[index] ?? "", svg]),
  ])
}

function changed(one: ReadonlyMap<string, string>, other: ReadonlyMap<string, string>): readonly string[] {
  return [...new Set([...one.keys(), ...other.keys()])].filter((name) => one.get(name) !== other.get(name)).sort()
}

/** Lines of visible text that the second page has more often than the first. */
function newLines(one: string, other: string): readonly string[] {
  const left = [...listLines(one)]
  return listLines(other).filter((line) => {
    const index = left.indexOf(line)
    if (index >= 0) left.splice(index, 1)
    return index < 0
  })
}

function replaceOnce(kitFiles: readonly KitFile[], path: string, from: string, to: string): readonly KitFile[] {
  return kitFiles.map((file) => {
    if (file.path !== path) return file
    const text = Buffer.from(file.bytes).toString("utf8")
    expect(text.split(from)).toHaveLength(2)
    return { path, bytes: Buffer.from(text.replace(from, to)) }
  })
}

function isEqual(one: unknown, other: unknown): boolean {
  try {
    expect(one).toEqual(other)
    return true
  } catch {
    return false
  }
}
