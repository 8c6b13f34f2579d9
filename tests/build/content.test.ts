import { readFileSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { hashKit, hashThings } from "../../src/build/content.ts"
import { newKit } from "../../src/build/index.ts"
import { readKitFolder } from "../../src/build/read-kit.ts"
import { loadStages } from "../../src/build/stages.ts"
import type { Kit } from "../../src/kit/types.ts"
import { makeTempFolder } from "./temp-folder.ts"

/** The starter kit after a change of its text. */
async function readChanged(change: (text: string) => string): Promise<Kit> {
  const folder = join(makeTempFolder(), "arm")
  newKit(folder)
  const file = join(folder, "kit.yaml")
  const before = readFileSync(file, "utf8")
  writeFileSync(file, change(before))
  const { proofs } = (await loadStages({})).prove(readKitFolder(folder), () => undefined)
  const [proof] = proofs
  if (proof === undefined) throw new Error("the starter kit has one variant")
  return proof.kit
}

const same = (text: string): string => text

test.each([
  ["a comment", (text: string) => text.replace("host:", "# what stands here already\n\nhost:")],
  ["a blank line at the top", (text: string) => `\n\n${text}`],
  [
    "block instead of flow style",
    (text: string) => text.replace("{ A: { name: All parts } }", "\n  A:\n    name: All parts"),
  ],
  ["CRLF line ends", (text: string) => text.replaceAll("\n", "\r\n")],
  ["the revision alone", (text: string) => text.replace("id: A,", "id: B,")],
])("%s is no change of content", async (_, change) => {
  expect(hashKit(await readChanged(change))).toBe(hashKit(await readChanged(same)))
})

test.each([
  ["a screw's length", "M4x20", "M4x25", ["joint:base"]],
  ["a word of a text", "by hand, then", "by hand and then", ["text:seat"]],
  ["a tie's length", "4.8x200", "4.8x250", ["tie:clamp"]],
  ["the size of a part", "saddle: 60 x 40 x 12", "saddle: 62 x 40 x 12", ["part:seat"]],
  ["the address of the supplier", "Your address", "My address", []],
])("%s is one, and the things it touches are told", async (_, from, to, touched) => {
  const [before, after] = [await readChanged(same), await readChanged((text) => text.replace(from, to))]
  expect(hashKit(after)).not.toBe(hashKit(before))
  const [old, now] = [hashThings(before), hashThings(after)]
  expect(Object.keys(now).filter((key) => now[key] !== old[key])).toEqual(touched)
})
