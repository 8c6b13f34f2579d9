/** Copies and screws that several steps share: each step counts its own, and the way back counts all. */
import { expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import { renderGuide, sheets, wordTables } from "../../src/document/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { splitFixture } from "../checks/fixture.ts"
import { makeDrawings, readAssets } from "./fixture.ts"

const kernel = await loadKernel()
const assets = readAssets()

/** The lines of one section in reading order, without markup and pictures. */
function read(steps: string, language = "en"): string {
  const kit = `host:
  gauge: { bores: { foot: { thread: M4, in: aluminium, depth: 9 } } }
parts:
  ear: { plastic: PETG, copies: { front: { at: [0, 0, 0] }, rear: { at: [50, 0, 0] } } }
  cap: { plastic: PETG, covers: ear.front, holds-itself: yes }
joints: { ear: { screws: 4 x ISO 4762 M4x14, through: ear, into: gauge.foot, torque: 0.5 } }
steps:
${steps}`
  const encoder = new TextEncoder()
  const files = splitFixture(kit).map(({ path, text }) => ({ path, bytes: encoder.encode(text) }))
  const noModel = () => ({ bytes: new Uint8Array() })
  const [proof] = proveKit(files, { kernel, readModel: noModel }).proofs
  const words = wordTables[language]
  if (proof === undefined || words === undefined) throw new Error("no proof, or no words")
  const { html } = renderGuide({ proof, drawings: makeDrawings(), sheet: sheets.screen, words, assets })
  return html
    .replace(/<(style|svg).*?<\/\1>/gs, "")
    .replace(/<\/?(?:span|strong|em)[^>]*>/g, "")
    .replace(/<[^>]*>/g, "|")
    .replace(/[\s|]*\|[\s|]*/g, "|")
    .replace(/\s+/g, " ")
}

const shared = `  front: { do: [place: ear.front, start: 2 x ear] }
  rear: { do: [place: ear.rear, start: 2 x ear, tighten: ear] }
`

test("a notice counts the screws that its step starts, and those that it tightens", () => {
  const notices = [...read(shared).matchAll(/(Turn|Stop)[^|]*?(\d) × [^|]*/g)].map(([, verb, count]) => [verb, count])
  expect(notices).toEqual([
    ["Turn", "2"],
    ["Turn", "2"],
    ["Stop", "4"],
  ])
})

test("copies that come free together are taken off together", () => {
  expect(read(shared)).toMatch(/\|Unscrew 4 × [^|]*\|Take off 2 × ear \(\d\)\|/)
  expect(read(shared)).not.toMatch(/Take off the ear/)
  expect(read(shared, "de")).toMatch(/\|2 × ear \(\d\) abnehmen\|/)
  const oneByOne = shared.replace("ear.front", "1 x ear").replace("ear.rear", "1 x ear")
  expect(read(oneByOne)).toMatch(/\|Take off 2 × ear \(\d\)\|/)
})

test("copies whose screws come out together are taken off together; one that something hides comes off by itself", () => {
  const held = `  front: { do: [place: ear.front, start: 2 x ear, tighten: 2 x ear] }
  rear: { do: [place: ear.rear, start: 2 x ear, tighten: 2 x ear] }
`
  expect(read(held)).toMatch(/\|Unscrew 4 × [^|]*\|Take off 2 × ear \(\d\)\|/)
  const hidden = `  front: { do: [place: ear.front] }
  cap: { do: [place: cap] }
  rear: { do: [place: ear.rear, start: ear, tighten: ear] }
`
  expect(read(hidden)).toMatch(
    /ear \(\d\) from position “rear”\|Take off the cap \(\d\)\|Take off the ear \(\d\) from position “front”/,
  )
  expect(read(hidden, "de")).toMatch(/\|Ear \(\d\) abnehmen, Position „front“/)
})

test("screws that are tightened twice are unscrewed once", () => {
  const again = `${shared}  again: { do: [tighten: ear] }\n`
  expect(read(again).match(/Unscrew 4 × /g)).toHaveLength(1)
})
