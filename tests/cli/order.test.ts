import { spawn } from "node:child_process"
import {
  appendFileSync,
  chmodSync,
  cpSync,
  readdirSync,
  readFileSync,
  renameSync,
  symlinkSync,
  writeFileSync,
} from "node:fs"
import { basename, join } from "node:path"
import { beforeAll, expect, test } from "vitest"
import { parse } from "yaml"
import { reorderSteps } from "../../src/spec/edit/reorder-steps.ts"
import { makeTempFolder } from "../build/temp-folder.ts"
import { mainFile, requireCompiled, runKitleaf } from "./run-kitleaf.ts"

beforeAll(requireCompiled)

const root = new URL("../../", import.meta.url).pathname
const foreignWords = /\bat .*\.js:\d+|node:internal|ENOENT|EACCES|undefined|\[object|NaN/

/** The largest kit, and two that are proved quickly: with models and a variant, and with a lid over a connector. */
const large = "guides/pump-cradle"
const small = "tests/guides/rain-gauge-arm"
const covered = "tests/faults/kits/workshop-light"

/** A copy of a kit of the repository in a folder of its own, of its variants only the named ones. */
function copyKit(from: string, variants?: readonly string[]) {
  const cwd = makeTempFolder()
  cpSync(join(root, from), join(cwd, "kit"), {
    recursive: true,
    filter: (path) =>
      variants === undefined || !/variants\/[^/]+$/.test(path) || variants.includes(basename(path, ".yaml")),
  })
  const file = join(cwd, "kit/kit.yaml")
  const read = (): string => readFileSync(file, "utf8")
  const ids = (): string[] => Object.keys((parse(read()) as { steps: object }).steps)
  /** Puts one step before another, with all its lines. */
  const plant = (...moves: readonly (readonly [step: string, before: string])[]): void => {
    for (const [step, before] of moves) {
      const order = ids().filter((id) => id !== step)
      order.splice(order.indexOf(before), 0, step)
      const edit = reorderSteps(read(), order)
      if (!("text" in edit)) throw new Error(edit.refusal.message)
      writeFileSync(file, edit.text)
    }
  }
  const change = (from: string, to: string): void => {
    if (read().split(from).length !== 2) throw new Error(`"${from}" does not stand once in the kit`)
    writeFileSync(
      file,
      read().replace(from, () => to),
    )
  }
  const run = async (...words: readonly string[]) => {
    const ran = await runKitleaf(["order", "kit", ...words], cwd)
    expect(ran.stdout + ran.stderr).not.toMatch(foreignWords)
    return ran
  }
  return { cwd, file, read, ids, plant, change, run }
}

/** Words without the line breaks that 80 columns make. */
const flat = (text: string): string => text.replace(/\s+/g, " ").trim()

const sortedLines = (text: string): readonly string[] => text.split("\n").sort()

/** The lines of a repair that begin with a mark: `-  10       close-up`. */
function marked(stdout: string, mark: "+" | "-"): readonly string[] {
  return stdout.split("\n").flatMap((line) => (line.startsWith(mark) ? (/ ([a-z-]+):/.exec(line)?.slice(1) ?? []) : []))
}

test("a valid order: what each step needs, how far it can move and why not further, in 80 columns", async () => {
  const { run, ids } = copyKit(large)
  const { code, stdout, stderr } = await run()
  expect(code).toBe(0)
  expect(stderr).toBe("pump-cradle: proving\n")
  const lines = stdout.split("\n")
  expect(lines.filter((line) => line.length > 80)).toEqual([])
  // Two of the three variants have equal answers; the third has steps of its own.
  expect(lines.filter((line) => line.startsWith("pump-cradle, "))).toEqual([
    "pump-cradle, round-tube-32, round-tube-48",
    "pump-cradle, square-tube-40",
  ])
  for (const [index, id] of ids().entries()) expect(stdout).toContain(`${String(index + 1).padStart(3)}  ${id}: `)
  expect(stdout).toMatch(/not later: Step\s+`close-up` comes only after step/)
  expect(stdout).toMatch(/^\d[\d ]* orders of these \d+ steps are valid\.$/m)
  expect(stdout).toMatch(/^Up to \d+ steps are free of one another at once/m)
})

test("variants with equal answers are told once; one can be chosen", async () => {
  const { run } = copyKit(small)
  expect((await run()).stdout).toMatch(/^rain-gauge-arm, all 2 variants\n/)
  expect((await run("--variant", "mast-48")).stdout).toMatch(/^rain-gauge-arm, mast-48\n/)
  const near = await run("--variant", "mast-84")
  expect(near).toMatchObject({ code: 2, stdout: "" })
  expect(near.stderr).toMatch(/\nThe kit has no variant `mast-84`; did you mean `mast-48`\.\n$/)
})

test("`--svg` and `--dot` write the graph, over their own files only", async () => {
  const { run, cwd } = copyKit(small)
  const written = await run("--svg", "order.svg", "--dot", "order.dot")
  expect(written.stdout).toMatch(/\nwrote order\.svg\nwrote order\.dot\n$/)
  expect(readFileSync(join(cwd, "order.svg"), "utf8")).toMatch(
    /^<svg[\s\S]*<\/svg>\n<!-- written by kitleaf order -->\n$/,
  )
  expect(readFileSync(join(cwd, "order.dot"), "utf8")).toMatch(
    /^digraph order \{[\s\S]*->[\s\S]*\}\n\/\/ written by kitleaf order\n$/,
  )
  writeFileSync(join(cwd, "mine.svg"), "<svg/>")
  const refused = await run("--dot", "order.dot", "--svg", "mine.svg")
  expect([refused.code, refused.stderr]).toEqual([
    2,
    expect.stringMatching(/`mine\.svg` is there already and was not written by kitleaf/),
  ])
  expect(readFileSync(join(cwd, "mine.svg"), "utf8")).toBe("<svg/>")
})

test("`--json` gives the same as data", async () => {
  const { run } = copyKit(small)
  const order = JSON.parse((await run("--json")).stdout)
  expect(order).toMatchObject({ kit: "rain-gauge-arm", variants: ["base", "mast-48"], findings: [], isFaulty: false })
  expect(order.orders[0].report.validOrders.kind).toBe("exact")
  const repair = JSON.parse((await run("--repair", "--json")).stdout)
  expect(repair).toMatchObject({ repair: { kind: "valid" }, isWritten: false, changed: [] })
})

test("a cover before a connector: told with the findings, mended by one move, written with every line", async () => {
  const { run, plant, read, ids, cwd } = copyKit(covered)
  plant(["cover", "thread-cord"])
  const before = read()
  const shown = await run("--repair")
  expect([shown.code, read()]).toEqual([1, before])
  expect(shown.stdout).toMatch(/^error taken-away-before /)
  expect(marked(shown.stdout, "-")).toHaveLength(1)
  expect(marked(shown.stdout, "-")).toEqual(marked(shown.stdout, "+"))
  const words = flat(shown.stdout)
  expect(words).toContain(" Of steps `cover` and `thread-cord` only one can stay where it is: ")
  expect(words).toContain(" No order with fewer moves exists. ")
  expect(words).toMatch(
    /After the move the order is valid in every variant\. Nothing was written\. To write kit\/kit\.yaml: kitleaf order kit --repair --write$/,
  )
  const written = await run("--repair", "--write")
  expect([written.code, written.stdout.endsWith("\nwrote kit/kit.yaml\n")]).toEqual([0, true])
  expect(sortedLines(read())).toEqual(sortedLines(before))
  expect(read()).not.toBe(before)
  expect(ids().indexOf("thread-cord")).toBeLessThan(ids().indexOf("cover"))
  expect(readdirSync(join(cwd, "kit")).filter((name) => name.endsWith(".new"))).toEqual([])
})

test("two steps swapped in a small kit are told, with what to call next", async () => {
  const { run, plant, ids } = copyKit(small)
  const right = ids()
  plant(["hood", "lead"])
  const faulty = await run()
  expect(faulty.code).toBe(1)
  expect(flat(faulty.stdout)).toMatch(
    /^error [\s\S]* rain-gauge-arm: the order cannot be done as it stands\. To see the smallest change that mends it: kitleaf order kit --repair$/,
  )
  expect(ids().toSorted()).toEqual(right.toSorted())
  expect((await run("--repair", "--write")).code).toBe(0)
  // The only places that the order proof allows are those they had.
  expect(ids()).toEqual(right)
  expect(await run("--repair", "--write")).toMatchObject({
    code: 0,
    stdout: "rain-gauge-arm: the order is valid; no step needs to move.\n",
  })
})

test("several faults at once are mended by as many moves at most", async () => {
  const { run, plant, read } = copyKit(large, [])
  plant(["close-up", "run-well-lead"], ["foot-left", "dress-left"], ["go-live", "hang-up"])
  const before = read()
  const written = await run("--repair", "--write")
  expect(written.code).toBe(0)
  expect(marked(written.stdout, "+").length).toBeLessThanOrEqual(3)
  expect(marked(written.stdout, "-").toSorted()).toEqual(marked(written.stdout, "+").toSorted())
  expect(sortedLines(read())).toEqual(sortedLines(before))
  expect(flat(written.stdout)).toContain(" After the move the order is valid in every variant. ")
})

test("a fault of one variant alone is mended in its file", async () => {
  const { run, cwd, read } = copyKit(large, ["square-tube-40"])
  const path = join(cwd, "kit/variants/square-tube-40.yaml")
  const text = readFileSync(path, "utf8")
  const placed = /place-before: foot-left/
  expect(text).toMatch(placed)
  writeFileSync(path, text.replace(placed, "place-after: foot-left"))
  const before = read()
  const written = await run("--repair", "--write")
  expect([written.code, written.stdout.match(/^wrote .*$/gm)]).toEqual([0, ["wrote kit/variants/square-tube-40.yaml"]])
  const changed = readFileSync(path, "utf8")
    .split("\n")
    .filter((line) => !text.includes(line))
  expect([read(), changed]).toEqual([before, [expect.stringMatching(/place-after: [a-z-]+/)]])
  expect(flat(written.stdout)).toContain(" After the move the order is valid in every variant. ")
})

test("requirements that contradict each other are named, and nothing is written", async () => {
  const { run, change, read } = copyKit(small)
  change("  lead:\n    do:", "  lead:\n    needs-after: { hood: the hood holds the lead }\n    do:")
  const before = read()
  const { code, stdout } = await run("--repair", "--write")
  expect(code).toBe(1)
  expect(flat(stdout)).toMatch(/ These requirements contradict each other: no order of the steps meets them all\. /)
  expect(flat(stdout)).toContain(" Step `lead` comes after step `hood`: the hood holds the lead. ")
  expect(read()).toBe(before)
})

test("two acts of one step in the wrong order are no matter of moving steps", async () => {
  const { run, change, read } = copyKit(small)
  change("place: hood, start: hood,", "start: hood, place: hood,")
  const before = read()
  const { code, stdout } = await run("--repair", "--write")
  expect(code).toBe(1)
  expect(flat(stdout)).toMatch(
    /rain-gauge-arm: no move of whole steps mends this\. The findings above say what to change\.$/,
  )
  expect(read()).toBe(before)
})

test("what the move does not mend is told as still open", async () => {
  const { run, change, plant } = copyKit(small)
  change("place: plate, start: foot, tighten: foot", "place: plate, start: foot")
  plant(["hood", "lead"])
  const { code, stdout } = await run("--repair", "--write")
  expect(code).toBe(1)
  expect(flat(stdout)).toMatch(
    /Still open after the move: joint `foot` is started but not tight at the end \(kit\.yaml:\d+, base, mast-48\) wrote kit\/kit\.yaml$/,
  )
})

test("a file that changes while the order is worked out is left as it is", async () => {
  const { cwd, file, plant, read } = copyKit(small)
  plant(["hood", "lead"])
  const child = spawn(process.execPath, [mainFile, "order", "kit", "--repair", "--write"], {
    cwd,
    stdio: ["ignore", "pipe", "pipe"],
  })
  const told = { stdout: "", isEdited: false }
  child.stdout.on("data", (bytes: Buffer) => {
    told.stdout += bytes.toString()
  })
  child.stderr.on("data", (bytes: Buffer) => {
    // The kit was read by then, and its new order is still to be proved.
    if (told.isEdited || !bytes.toString().includes("proving the new order")) return
    told.isEdited = true
    appendFileSync(file, "# An edit meanwhile.\n")
  })
  const before = read()
  expect(await new Promise((resolve) => child.on("close", resolve))).toBe(1)
  expect(told.isEdited).toBe(true)
  expect(flat(told.stdout)).toMatch(
    /`kit\.yaml` changed while the order was worked out; nothing was written\. Run it again\.$/,
  )
  expect(read()).toBe(`${before}# An edit meanwhile.\n`)
})

test("an alias that would come before its anchor is shown, and nothing is written", async () => {
  const { run, change, plant, read } = copyKit(small)
  plant(["hood", "lead"])
  change("  hood:\n    do:", "  hood:\n    caution: &mind Mind the edge.\n    do:")
  change("  lead:\n    do:", "  lead:\n    caution: *mind\n    do:")
  const before = read()
  const { code, stdout } = await run("--repair", "--write")
  expect(code).toBe(1)
  expect(stdout).toMatch(/steps-not-movable[\s\S]*`\*mind` would come to stand before `&mind`/)
  expect(stdout).toMatch(/\nNothing was written\.\n$/)
  expect(read()).toBe(before)
})

test("a kit file that is a link or read-only is left alone, with a word why", async () => {
  const { run, plant, file, cwd } = copyKit(small)
  plant(["hood", "lead"])
  chmodSync(file, 0o444)
  const locked = await run("--repair", "--write")
  expect([locked.code, flat(locked.stdout)]).toEqual([
    1,
    expect.stringMatching(/ `kit\.yaml` is read-only; nothing was written\. Let it be written, then run it again\.$/),
  ])
  chmodSync(file, 0o644)
  renameSync(file, join(cwd, "kit/real.yaml"))
  symlinkSync("real.yaml", file)
  const linked = await run("--repair", "--write")
  expect([linked.code, flat(linked.stdout)]).toEqual([
    1,
    expect.stringMatching(/ `kit\.yaml` is a link; nothing was written\. Put the file itself into the kit's folder\.$/),
  ])
})

test("a kit that cannot be read gives its findings, as `check` does", async () => {
  const { run, change, cwd } = copyKit(small)
  change("place: plate, start: foot, tighten: foot", "place: plate, start: foot, tihgten: foot")
  const { code, stdout } = await run()
  const check = await runKitleaf(["check", "kit"], cwd)
  expect(code).toBe(1)
  expect(check.stdout.startsWith(stdout)).toBe(true)
  expect(stdout).toMatch(/^(error|note) /)
  expect((await run("--repair", "--write")).stdout).toBe(stdout)
})

test("words that do not go together are told in a sentence", async () => {
  const { run, cwd } = copyKit(small)
  expect((await runKitleaf(["order", "nowhere"], cwd)).stderr).toBe("There is no folder `nowhere`.\n")
  expect((await run("--write")).stderr).toMatch(/^`--write` goes with `--repair`/)
  expect((await run("--repair", "--dot", "x")).stderr).toMatch(/^`--dot` does not go with `--repair`/)
})
