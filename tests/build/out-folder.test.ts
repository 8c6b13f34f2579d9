import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { buildWith } from "../../src/build/run-build.ts"
import type { BuildResult } from "../../src/build/types.ts"
import type { Severity } from "../../src/findings/types.ts"
import { makeStubStages } from "./stub-stages.mjs"
import { makeTempFolder } from "./temp-folder.ts"

const quiet = (): void => undefined

/** A folder with a kit for the stub stages, and one for its documents. */
function prepare(): { readonly kit: string; readonly out: string } {
  const [kit, out] = [makeTempFolder(), makeTempFolder()]
  writeFileSync(join(kit, "kit.yaml"), "kit: stub\n")
  return { kit, out }
}

async function build(
  { kit, out }: { readonly kit: string; readonly out: string },
  generation: number | string,
  variants?: readonly string[],
  severityOf?: (variant: string) => Severity | undefined,
): Promise<BuildResult> {
  const [result] = await buildWith(
    makeStubStages(() => generation, variants, severityOf),
    [kit],
    out,
    quiet,
  )
  if (result === undefined) throw new Error("one kit gives one result")
  return result
}

const states = ({ results }: BuildResult): readonly string[] => results.map(({ id, state }) => `${id} ${state}`)
const firstLine = (path: string): string => readFileSync(path, "utf8").split("\n")[0] ?? ""

type Entry = {
  readonly variant: string
  readonly isCurrent: boolean
  readonly verdict: string
  readonly links: unknown[]
}
const readIndex = (out: string): readonly Entry[] =>
  JSON.parse(readFileSync(join(out, "index.html"), "utf8")) as Entry[]

test("a variant with errors keeps its last good documents and is marked, the others are replaced", async () => {
  const places = prepare()
  await build(places, 1)
  const result = await build(places, 2, undefined, (variant) => (variant === "two" ? "error" : undefined))
  expect(states(result)).toEqual(["one built", "two kept", "three built"])
  const generation = (variant: string): string => firstLine(join(places.out, "stub", variant, "guide.html"))
  expect(["one", "two", "three"].map(generation)).toEqual(["2", "1", "2"])
  expect(readIndex(places.out).map(({ variant, isCurrent }) => [variant, isCurrent])).toEqual([
    ["one", true],
    ["three", true],
    ["two", false],
  ])
  expect(result.results[1]?.verdict).toBe("not built: 1 error; the documents of revision A1 still stand")
})

test("a marked variant is current again once it builds", async () => {
  const places = prepare()
  await build(places, 1, ["one"], () => "error")
  expect(readIndex(places.out)).toMatchObject([{ variant: "one", isCurrent: false, links: [] }])
  await build(places, 1, ["one"])
  expect(readIndex(places.out)).toMatchObject([{ variant: "one", isCurrent: true }])
})

test("warnings do not stop a variant", async () => {
  const places = prepare()
  const result = await build(places, 1, ["one"], () => "warning")
  expect(result.results).toMatchObject([{ state: "built", warningCount: 1, verdict: "built, 1 warning" }])
})

test("the folder of a variant that is gone is told and left in place", async () => {
  const places = prepare()
  await build(places, 1)
  const result = await build(places, 1, ["one", "three"])
  expect(result.leftOver).toEqual(["stub/two"])
  expect(existsSync(join(places.out, "stub", "two", "guide.html"))).toBe(true)
  expect(readIndex(places.out).find(({ variant }) => variant === "two")).toMatchObject({ isCurrent: false })
  rmSync(join(places.out, "stub", "two"), { recursive: true })
  expect((await build(places, 1, ["one", "three"])).leftOver).toEqual([])
  expect(readIndex(places.out).map(({ variant }) => variant)).toEqual(["one", "three"])
})

test("a kit that cannot be read keeps all it had", async () => {
  const places = prepare()
  await build(places, 1)
  rmSync(join(places.kit, "kit.yaml"))
  symlinkSync("/dev/null", join(places.kit, "kit.yaml"))
  const named = join(makeTempFolder(), "stub")
  renameSync(places.kit, named)
  const result = await build({ kit: named, out: places.out }, 2)
  expect(result.findings.map(({ id }) => id)).toEqual(["text-file-not-read"])
  expect(states(result)).toEqual(["one kept", "three kept", "two kept"])
  expect(readIndex(places.out).every(({ isCurrent }) => !isCurrent)).toBe(true)
})

test("the index holds every kit that stands", async () => {
  const places = prepare()
  await build(places, 1, ["one"])
  const foreign = join(places.out, "notes", "mine")
  mkdirSync(foreign, { recursive: true })
  writeFileSync(join(foreign, "report.json"), '{"by":"another program"}')
  await build(places, 1, ["two"])
  expect(readIndex(places.out).map(({ variant }) => variant)).toEqual(["one", "two"])
})

test("a folder of files that Kitleaf did not make is not replaced", async () => {
  const places = prepare()
  mkdirSync(join(places.out, "stub", "one"), { recursive: true })
  writeFileSync(join(places.out, "stub", "one", "thesis.txt"), "years")
  const result = await build(places, 1, ["one", "two"])
  expect(readFileSync(join(places.out, "stub", "one", "thesis.txt"), "utf8")).toBe("years")
  expect(result.findings.map(({ id, message }) => `${id}: ${message}`)).toEqual([
    "foreign-folder: `stub/one` in the folder of documents holds files that Kitleaf did not make",
  ])
  expect(states(result)).toEqual(["one none", "two built"])
})

test.each([["error"], [undefined]] as const)(
  "names that lead out of the folder of documents lead nowhere (%s)",
  async (severity) => {
    const above = makeTempFolder()
    const kit = join(above, "kit")
    mkdirSync(kit)
    writeFileSync(join(kit, "kit.yaml"), "kit: stub\n")
    const places = { kit, out: join(above, "inner", "out") }
    const result = await build(places, 1, ["../../../escaped", "one"], () => severity)
    expect(readdirSync(above).sort()).toEqual(["inner", "kit"])
    expect(readdirSync(join(above, "inner"))).toEqual(["out"])
    expect(result.results[0]?.state).toBe("none")
  },
)

test("content that changes under one revision is told until the revision is raised", async () => {
  const places = prepare()
  const ids = async (generation: string): Promise<readonly string[]> =>
    (await build(places, generation, ["one"])).findings.map(({ id }) => id)
  expect(await ids("1 A")).toEqual([])
  expect(await ids("1 A")).toEqual([])
  expect(await ids("2 A")).toEqual(["revision-not-raised"])
  expect(await ids("2 A")).toEqual(["revision-not-raised"])
  expect(await ids("1 A")).toEqual([])
  expect(await ids("3 B")).toEqual([])
  expect(await ids("1 A")).toEqual([])
})

test("a fault of a stage is told as a finding and leaves the rest alone", async () => {
  const places = prepare()
  const stages = makeStubStages(() => 1)
  const publish: typeof stages.publish = (proof, drawings) => {
    if (proof.kit.variant.id === "two") throw new TypeError("x is not iterable")
    return stages.publish(proof, drawings)
  }
  const [result] = await buildWith({ ...stages, publish }, [places.kit], places.out, quiet)
  expect(result?.results.map(({ state }) => state)).toEqual(["built", "none", "built"])
  expect(result?.findings.map(({ id, message }) => `${id}: ${message}`)).toEqual([
    "tool-fault: `stub/two` could not be worked out; the tool is at fault, not your kit",
  ])
  expect(readFileSync(join(places.out, "fault.txt"), "utf8")).toContain("x is not iterable")
})

test("pages that cannot be printed leave the last good documents", async () => {
  const places = prepare()
  await build(places, 1, ["one"])
  const stages = makeStubStages(() => 2, ["one"])
  const openPrinter: typeof stages.openPrinter = async () => ({
    browser: "Stub 1",
    print: async () => {
      throw new Error("page 3 of guide.a4.pdf is 216 x 279 mm, it should be 210 x 297 mm")
    },
    close: async () => undefined,
  })
  const [result] = await buildWith({ ...stages, openPrinter }, [places.kit], places.out, quiet)
  expect(result?.results).toMatchObject([{ state: "kept" }])
  expect(result?.findings).toMatchObject([{ id: "page-not-printed", severity: "error" }])
  expect(firstLine(join(places.out, "stub", "one", "guide.html"))).toBe("1")
})

test("without a browser the HTML is built, and what to do is told", async () => {
  const places = prepare()
  const stages = { ...makeStubStages(() => 1, ["one"]), openPrinter: async () => ({ problem: "Install one." }) }
  const [result] = await buildWith(stages, [places.kit], places.out, quiet)
  expect(result).toMatchObject({ printProblem: "Install one.", results: [{ state: "pages-missing" }] })
  expect(readdirSync(join(places.out, "stub", "one")).sort()).toEqual(["drawings", "guide.html", "report.json"])
})

test("a PDF made from the same page is taken over, one that was touched is not", async () => {
  const places = prepare()
  let printCount = 0
  const stages = makeStubStages(() => 1, ["one"])
  const openPrinter: typeof stages.openPrinter = async () => ({
    browser: "Stub 1",
    print: async ({ html }) => {
      printCount += 1
      return Buffer.from(html)
    },
    close: async () => undefined,
  })
  const again = (): Promise<unknown> => buildWith({ ...stages, openPrinter }, [places.kit], places.out, quiet)
  await again()
  await again()
  expect(printCount).toBe(1)
  writeFileSync(join(places.out, "stub", "one", "guide.a4.pdf"), "touched")
  await again()
  expect(printCount).toBe(2)
})

test("two kits of one id in one run do not replace each other", async () => {
  const places = prepare()
  const other = makeTempFolder()
  writeFileSync(join(other, "kit.yaml"), "kit: stub\n")
  const results = await buildWith(
    makeStubStages(() => 1, ["one"]),
    [places.kit, other],
    places.out,
    quiet,
  )
  expect(results.map(states)).toEqual([["one built"], []])
  expect(readIndex(places.out)).toMatchObject([{ variant: "one", isCurrent: true }])
  expect(results[1]?.findings.map(({ id }) => id)).toEqual(["kit-id-twice"])
})
