import { expect, test } from "vitest"
import { renderCard, renderGuide, sheets, wordTables } from "../../src/document/index.ts"
import { de } from "../../src/document/words/de.ts"
import { en } from "../../src/document/words/en.ts"
import { makeDrawings, makeProof, readAssets } from "./fixture.ts"

/** All leaves of a table that are plain text, with their path. */
function texts(table: unknown, path = ""): readonly (readonly [string, string])[] {
  if (typeof table === "string") return [[path, table]]
  if (typeof table !== "object" || table === null) return []
  return Object.entries(table).flatMap(([key, value]) => texts(value, path === "" ? key : `${path}.${key}`))
}

/** Paths of all leaves, texts and functions. */
function leaves(table: unknown, path = ""): readonly string[] {
  if (typeof table !== "object" || table === null) return [path]
  return Object.entries(table).flatMap(([key, value]) => leaves(value, path === "" ? key : `${path}.${key}`))
}

test("both tables have the same entries", () => {
  expect([...leaves(de)].sort()).toEqual([...leaves(en)].sort())
})

test("no German text is left in English", () => {
  const english = new Map(texts(en))
  const allowed = new Set(["index.links.a4", "index.links.letter"])
  const equal = texts(de).filter(([path, value]) => english.get(path) === value && !allowed.has(path))
  expect(equal).toEqual([])
})

test("signal words are those of ANSI Z535.4 and the German practice of ISO 3864-2", () => {
  expect(en.signal).toEqual({ danger: "DANGER", warning: "WARNING", caution: "CAUTION", notice: "NOTICE" })
  expect(de.signal).toEqual({ danger: "GEFAHR", warning: "WARNUNG", caution: "VORSICHT", notice: "HINWEIS" })
  // "Achtung" is the word of chemical labels (Regulation (EC) 1272/2008) and would shift the level.
  expect(texts(de).filter(([, value]) => /achtung/i.test(value))).toEqual([])
})

test("acts are commands without full stop, in English with the verb first", () => {
  const { acts } = en
  const lines = [
    acts.place({ count: 1, what: "plate (1)" }, undefined),
    acts.place({ count: 2, what: "saddle (4)" }, undefined),
    acts.start("2 × screw (2)", ["plate (1)"], ["unit"]),
    acts.tighten("2 × screw (2)", "hex key 3 mm"),
    acts.feed("plug", "hole", undefined),
    acts.feed("plug", "hole", 27),
    acts.strap("4 × tie (6)", "mast", "no saddle turns"),
    acts.isolate("unit"),
  ]
  expect(lines).toEqual([
    "Place the plate (1)",
    "Place 2\u00a0× saddle (4)",
    "Start 2 × screw (2) by hand, through the plate (1), into the unit",
    "Tighten 2 × screw (2) with the hex key 3 mm to",
    "Feed the plug through the hole",
    "Feed the plug through the hole, turned by about 27°",
    "Close 4 × tie (6) round the mast until no saddle turns",
    "Disconnect the unit from its supply",
  ])
})

test("plural forms follow the count", () => {
  expect(en.front.resources(1, undefined)).toBe("1\u00a0person")
  expect(en.front.resources(2, "45\u00a0min")).toBe("2\u00a0persons, about 45\u00a0min")
  expect(de.front.resources(1, undefined)).toBe("1\u00a0Person")
  expect(de.index.counts(1, 2)).toBe("1\u00a0Fehler, 2\u00a0Warnungen")
})

test("durations, ranges and signs", () => {
  expect(en.measures.duration(90)).toBe("1\u00a0h\u00a030\u00a0min")
  expect(en.measures.duration(2.5)).toBe("2.5\u00a0min")
  expect(en.measures.duration(120)).toBe("2\u00a0h")
  expect(en.measures.celsius(-10)).toBe("\u221210\u00a0°C")
  expect(en.measures.range({ min: 32, max: 32 }, en.measures.mm)).toBe("32\u00a0mm")
  expect(de.measures.range({ min: 1.5, max: Number.POSITIVE_INFINITY }, de.measures.mm)).toBe("ab 1,5\u00a0mm")
})

test("English sentences of ours have at most 25 words (ASD-STE100, rules 5.1 and 6.3, descriptive text)", () => {
  const long = texts(en).flatMap(([path, value]) =>
    value
      .split(/(?<=[.!?:])\s+/)
      .filter((sentence) => sentence.split(/\s+/).length > 25)
      .map((sentence) => `${path}: ${sentence}`),
  )
  expect(long).toEqual([])
})

test("no semicolons or Latin abbreviations in our English text", () => {
  expect(texts(en).filter(([, value]) => /;|\be\.g\.|\bi\.e\.|\betc\b|\bapprox\b/.test(value))).toEqual([])
})

test("a German guide and card are complete, and say which texts are not translated", () => {
  const proof = makeProof()
  const drawings = makeDrawings()
  const assets = readAssets()
  const words = wordTables.de
  if (words === undefined) throw new Error("the German words are missing")
  const guide = renderGuide({ proof, drawings, sheet: sheets.a4, words, assets })
  const card = renderCard({ proof, drawings, sheet: sheets.a6, words, assets })
  expect(guide.language).toBe("de")
  expect(guide.html).toContain('<html lang="de">')
  expect(guide.html).toContain("Übersetzung der festen Wörter")
  // The maker's texts of the fixture are English and marked so (WCAG 2.2, 3.1.2).
  expect(guide.html).toContain('class="maker" lang="en"')
  for (const { html } of [guide, card]) {
    const shown = html.replace(/<style>.*?<\/style>/gs, "").replace(/<[^>]*>/g, "\n")
    // Every plain text of the English table that is a whole line must be gone.
    const lines = new Set(shown.split("\n").map((line) => line.trim()))
    const german = new Set(texts(de).map(([, value]) => value))
    expect(texts(en).filter(([, value]) => lines.has(value) && !german.has(value))).toEqual([])
  }
})
