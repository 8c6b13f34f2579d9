import { spawn } from "node:child_process"
import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { setTimeout as sleep } from "node:timers/promises"
import { expect, test } from "vitest"
import { buildWith } from "../../src/build/run-build.ts"
import { workPlace } from "../../src/build/swap.ts"
import { makeStubStages } from "./stub-stages.mjs"
import { makeTempFolder } from "./temp-folder.ts"

const child = new URL("endless-build.mjs", import.meta.url).pathname
const variants = ["one", "two", "three"]

/** Mulberry32: small numbers from a seed, so that a moment that showed a fault can be met again. */
function makeRandom(seed: number): () => number {
  let state = seed
  return () => {
    state = (state + 0x6d2b79f5) | 0
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
  }
}

/** Starts builds, lets the first one finish, kills at `momentMs` after it. */
async function buildUntilKilled(kit: string, out: string, momentMs: number): Promise<void> {
  const builder = spawn(process.execPath, [child, kit, out], { stdio: ["ignore", "pipe", "inherit"] })
  const ended = new Promise((resolve) => builder.on("exit", resolve))
  await new Promise((resolve) => builder.stdout.once("data", resolve))
  await sleep(momentMs)
  builder.kill("SIGKILL")
  await ended
}

/** Generations found in the files of a variant's folder, with the number of files. */
function readFolder(folder: string): { readonly generations: readonly string[]; readonly fileCount: number } {
  const files = readdirSync(folder, { recursive: true, encoding: "utf8", withFileTypes: true }).filter((entry) =>
    entry.isFile(),
  )
  const texts = files
    .filter(({ name }) => name !== "report.json")
    .map(({ parentPath, name }) => readFileSync(join(parentPath, name), "utf8"))
  const generations = new Set(texts.map((text) => text.split("\n")[0] ?? ""))
  const isWhole = texts.every((text) => text.length === text.indexOf("\n") * 4000 + 4000)
  const report = JSON.parse(readFileSync(join(folder, "report.json"), "utf8")) as { revision: { id: string } }
  generations.add(report.revision.id.slice(1))
  return { generations: isWhole ? [...generations] : ["cut short"], fileCount: files.length }
}

/** True when a swap was cut short: there are files, not just empty folders, where swaps are prepared. */
function isUnfinished(out: string): boolean {
  return ["new", "swaps", "old", "writing"]
    .map((part) => workPlace(out, part))
    .filter((path) => existsSync(path))
    .some(
      (path) =>
        statSync(path).isFile() ||
        readdirSync(path, { recursive: true, withFileTypes: true }).some((entry) => entry.isFile()),
    )
}

test("killed at 50 moments of a build, every folder is wholly old or wholly new after the next start", async () => {
  const seed = 20260302
  const random = makeRandom(seed)
  const kit = makeTempFolder()
  writeFileSync(join(kit, "kit.yaml"), "kit: stub\n")
  const killAndLook = async (round: number, momentMs: number): Promise<boolean> => {
    const out = makeTempFolder()
    await buildUntilKilled(kit, out, momentMs)
    const wasUnfinished = isUnfinished(out)
    await buildWith(
      makeStubStages(() => "none"),
      [],
      out,
      () => undefined,
    )
    for (const variant of variants) {
      const { generations, fileCount } = readFolder(join(out, "stub", variant))
      expect({ seed, round, variant, generations: generations.length, fileCount }).toEqual({
        seed,
        round,
        variant,
        generations: 1,
        fileCount: 15,
      })
      expect(Number(generations[0])).toBeGreaterThan(0)
    }
    expect(["new", "swaps", "old", "writing"].filter((part) => existsSync(workPlace(out, part)))).toEqual([])
    return wasUnfinished
  }
  let unfinishedCount = 0
  for (let round = 0; round < 50; round += 5) {
    const moments = Array.from({ length: 5 }, () => random() * 60)
    const looks = await Promise.all(moments.map((momentMs, index) => killAndLook(round + index, momentMs)))
    unfinishedCount += looks.filter((wasUnfinished) => wasUnfinished).length
  }
  // Should no kill fall into a build, the test would show nothing.
  expect(unfinishedCount).toBeGreaterThan(20)
})

test("each step of a swap can be the last before a kill", async () => {
  const kit = makeTempFolder()
  writeFileSync(join(kit, "kit.yaml"), "kit: stub\n")
  const states: readonly { readonly has: readonly string[]; readonly expected: string }[] = [
    { has: ["standing"], expected: "1" },
    { has: ["standing", "fresh"], expected: "1" },
    { has: ["standing", "fresh", "entry"], expected: "2" },
    { has: ["old", "fresh", "entry"], expected: "2" },
    { has: ["old", "new standing", "entry"], expected: "2" },
    { has: ["old", "new standing"], expected: "2" },
  ]
  for (const { has, expected } of states) {
    const out = makeTempFolder()
    const put = (folder: string, generation: string): void => {
      mkdirSync(folder, { recursive: true })
      writeFileSync(join(folder, "guide.html"), generation)
    }
    if (has.includes("standing")) put(join(out, "stub", "one"), "1")
    if (has.includes("new standing")) put(join(out, "stub", "one"), "2")
    if (has.includes("old")) put(workPlace(out, "old", "stub", "one"), "1")
    if (has.includes("fresh")) put(workPlace(out, "new", "stub", "one"), "2")
    if (has.includes("entry")) {
      mkdirSync(workPlace(out, "swaps"), { recursive: true })
      writeFileSync(workPlace(out, "swaps", "stub+one"), "complete")
    }
    await buildWith(
      makeStubStages(() => "none"),
      [],
      out,
      () => undefined,
    )
    expect([has, readFileSync(join(out, "stub", "one", "guide.html"), "utf8")]).toEqual([has, expected])
    expect(readdirSync(workPlace(out))).toEqual([])
  }
})
