/** Which bag to open when, and that locked screws which are driven again are taken anew. */
import { expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import { renderGuide, sheets, wordTables } from "../../src/document/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { splitFixture } from "../checks/fixture.ts"
import { makeDrawings, readAssets } from "./fixture.ts"

const kernel = await loadKernel()
const assets = readAssets()

/** The guide of a kit in reading order, without markup and pictures. */
function read(kit: string, language = "en"): string {
  const encoder = new TextEncoder()
  const files = splitFixture(kit).map(({ path, text }) => ({ path, bytes: encoder.encode(text) }))
  const noModel = () => ({ bytes: new Uint8Array() })
  const [proof] = proveKit(files, { kernel, readModel: noModel }).proofs
  const words = wordTables[language]
  if (proof === undefined || words === undefined) throw new Error("no proof, or no words")
  const { html } = renderGuide({ proof, drawings: makeDrawings(), sheet: sheets.screen, words, assets })
  return html
    .replace(/<(style|svg).*?<\/\1>/gs, "")
    .replace(/<[^>]+>/g, " ")
    .replace(/&nbsp;|\u00a0/g, " ")
    .replace(/\s+/g, " ")
}

const bags = (second: string): string => `
parts:
  ear: { plastic: PETG, bag: A, holds-itself: yes }
  cap: { plastic: PETG, bag: ${second}, holds-itself: yes }
  lid: { plastic: PETG, bag: ${second}, holds-itself: yes }
  top: { plastic: PETG, bag: C, holds-itself: yes }
steps:
  ear: { do: [place: ear] }
  cap: { do: [place: cap] }
  lid: { do: [place: lid] }
  top: { do: [place: top] }
`

test("a bag is opened at the first step that takes from it, the others are put away", () => {
  const guide = read(bags("B"))
  expect(guide.match(/(Put bags? \S+ away\. )?Open bags? \S+\./g)).toEqual([
    "Open bag A.",
    "Put bag A away. Open bag B.",
    "Put bag B away. Open bag C.",
  ])
  expect(read(bags("B"), "de")).toContain("Beutel A weglegen. Beutel B öffnen.")
})

test("a bag that is still needed stays open", () =>
  expect(read(bags("B").replace("lid: { plastic: PETG, bag: B", "lid: { plastic: PETG, bag: A"))).toContain(
    "Open bag B. ",
  ))

test("with one bag alone nothing is said", () => {
  const one = bags("A").replace("bag: C", "bag: A")
  expect(read(one)).not.toContain("Open bag")
})

test("new screws are taken where locked ones are driven again, and the same washers", () => {
  const guide = read(`
host:
  gauge: { bores: { foot: { thread: M4, in: steel, depth: through 10, holes: [{ at: [0, 0, 0] }, { at: [20, 0, 0] }] } } }
parts: { lug: { material: aluminium } }
joints:
  foot: { screws: 2 x ISO 4762 M4x16, washer: ISO 7089 M4, through: lug, into: gauge.foot, grip: 6, torque: 0.5, surface: thread-lock, spare: 2 }
consumables: { thread-lock: Thread lock }
steps:
  try: { do: [place: lug, start: foot, tighten: foot, unscrew: foot] }
  again: { do: [start: foot, tighten: foot] }
`)
  const again = guide.slice(guide.indexOf("Step 2 "))
  const take = again.slice(again.indexOf(" Take "), again.indexOf(" Do "))
  expect(take).toContain("2 × Cap screw")
  expect(take).not.toContain("Washer")
})

test("a wait names what it is for", () => {
  const kit = bags("B").replace("do: [place: lid]", "do: [stick: grip, wait: 30 min for grip, place: lid]")
  const guide = read(`${kit}\npads: { grip: { name: Grip pad, pads: 2 x 20 x 20 x 1, on: lid, cure: 30 min } }`)
  expect(guide).toMatch(/Let 2 × grip pad \(\d\) rest 30 min/)
})
