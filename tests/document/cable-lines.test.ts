/** What the guide says about cables: ends that pass only when they are turned, glands, openings at the way back. */
import { expect, test } from "vitest"
import { viewAct } from "../../src/document/acts.ts"
import { listInspections, listRetightening } from "../../src/document/after.ts"
import { makeContext } from "../../src/document/context.ts"
import { sheets, wordTables } from "../../src/document/index.ts"
import { titleOf } from "../../src/document/steps.ts"
import { proofOf } from "../fit/proof-of.ts"
import { makeDrawings } from "./fixture.ts"

const kit = `
host:
  gauge: { sockets: { power: { name: Power socket } } }
parts:
  wall: { plastic: PETG, holds-itself: yes }
cables:
  lead: { ends: { plug: { size: 13 x 1, name: Plug }, tail: round 3 }, via: [slit, gland] }
passages:
  gland: { in: wall, name: Narrow gland, opening: round 14, clamps: 2 to 4 }
  slit: { in: wall, name: Slit, opening: 12 x 6.88 }
steps:
  wall:
    do: [place: wall]
  lead:
    do:
      - feed: lead.plug through gland
      - feed: lead.plug through slit
      - connect: lead.plug to gauge.power
      - close: gland
      - open: gland
      - close: gland
`

test.each([
  [
    "en",
    [
      "Feed the plug through the narrow gland",
      // Carver's turn for 13 x 1 in a width of 12, as worked in tests/fit/openings.test.ts.
      "Feed the plug through the slit, turned by about 27°",
      "Connect the plug to the power socket",
      "Tighten the narrow gland by hand until it holds the cable",
      "Loosen the narrow gland",
      "Tighten the narrow gland by hand until it holds the cable",
    ],
  ],
  [
    "de",
    [
      "Plug durchführen, durch: Narrow gland",
      "Plug durchführen, durch: Slit, um etwa 27° gedreht",
      "Plug anschließen, an: Power socket",
      "Narrow gland von Hand festdrehen, bis das Kabel fest sitzt",
      "Narrow gland lösen",
      "Narrow gland von Hand festdrehen, bis das Kabel fest sitzt",
    ],
  ],
])("acts on cables, %s", (language, expected) => {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  const proof = proofOf(kit)
  const context = makeContext(proof, makeDrawings(), sheets.screen, words)
  const acts = proof.kit.steps.find(({ id }) => id === "lead")?.acts ?? []
  expect(acts.map((act) => viewAct(context, act).words.replaceAll("\u00a0", " "))).toEqual(expected)
})

test.each([
  ["en", "The narrow gland is tight: the lead can be neither pulled nor turned in it."],
  ["de", "Narrow gland fest: lead lässt sich darin weder ziehen noch drehen."],
])("the final inspection looks at glands, %s", (language, expected) => {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  const lines = listInspections(makeContext(proofOf(kit), makeDrawings(), sheets.screen, words))
  expect(
    lines.map((line) => line.replaceAll("\u00a0", " ").replace(/ \(\d+\)/g, "")).filter((line) => /gland/i.test(line)),
  ).toContain(expected)
})

test("a cable is laid into an opening that is open at one side, and no end is said to be too large for it", () => {
  const open = kit
    .replace("opening: round 14, clamps: 2 to 4", "opening: round 2, closed: no")
    .replace(/ +- (close|open): gland\n/g, "")
  const proof = proofOf(open)
  const words = wordTables.en
  if (words === undefined) throw new Error("no words")
  const context = makeContext(proof, makeDrawings(), sheets.screen, words)
  const feed = proof.kit.steps[1]?.acts[0]
  if (feed === undefined) throw new Error("no act")
  expect(viewAct(context, feed).words.replaceAll("\u00a0", " ")).toBe("Lay the lead (2) into the narrow gland")
  expect(proof.sequence.advice.otherEnds.filter(({ passage }) => passage === "gland")).toEqual([])
})

test("screws that are locked are not tightened again", () => {
  const words = wordTables.en
  if (words === undefined) throw new Error("no words")
  const linesOf = (surface: string): readonly string[] => {
    const proof = proofOf(`
host:
  gauge: { bores: { foot: { thread: M4, in: steel, depth: through 10, holes: [{ at: [0, 0, 0] }] } } }
parts:
  lug: { shape: { plate: 20 x 20 x 6, holes: [4.5 at 10, 10] }, at: [-10, -10, 0], plastic: PETG }
joints:
  foot: { screws: 1 x ISO 4762 M4x16, through: lug, into: gauge.foot, surface: ${surface} }
steps:
  lug: { do: [place: lug, start: foot, tighten: foot] }
`)
    return listRetightening(makeContext(proof, makeDrawings(), sheets.screen, words))
  }
  expect(linesOf("dry")).toHaveLength(1)
  expect(linesOf("thread-lock")).toEqual([])
})

test.each([
  ["en", "Turn the whole assembly so that its underside faces you"],
  ["de", "Gesamte Baugruppe drehen, sodass Sie diese Seite sehen: Unterseite"],
])("a step is named after its main act, and a turn says which side is seen then, %s", (language, turned) => {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  const proof = proofOf(`
parts:
  wall: { plastic: PETG, holds-itself: yes }
steps:
  wall: { do: [clean: wall, place: wall] }
  over: { do: [turn: all to bottom] }
`)
  const context = makeContext(proof, makeDrawings(), sheets.screen, words)
  const titles = proof.kit.steps.map((step) => titleOf(context, step).replaceAll("\u00a0", " "))
  expect(titles[0]).not.toMatch(/Clean|reinigen/)
  expect(titles[1]?.toLowerCase()).toBe(turned.toLowerCase())
})
