/** Kits that say little: no guide address, no full supplier, no limits, only values that the maker tried. */
import { expect, test } from "vitest"
import type { Proof } from "../../src/document/index.ts"
import { renderCard, renderGuide, sheets, wordTables } from "../../src/document/index.ts"
import { makeDrawings, makeKit, makeProof, readAssets } from "./fixture.ts"

const assets = readAssets()
const drawings = makeDrawings()

function shown(proof: Proof, language = "en"): { readonly guide: string; readonly card: string } {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  const options = { proof, drawings, words, assets }
  const bare = (html: string): string =>
    html
      .replace(/<style>.*?<\/style>/gs, (css) => css.match(/@(?:top|bottom)-left { content: .*/g)?.join("\n") ?? "")
      .replace(/<svg.*?<\/svg>/gs, "[picture]")
  return {
    guide: bare(renderGuide({ ...options, sheet: sheets.screen }).html),
    card: bare(renderCard({ ...options, sheet: { ...sheets.a6, figures: "inline" } }).html),
  }
}

test("without a guide address no code and no sentence point to one", () => {
  const { identity } = makeKit()
  const without = shown(makeProof({ identity: { ...identity, revision: { ...identity.revision, guide: "" } } }))
  expect(shown(makeProof()).card).toContain("Guide for this revision:")
  for (const html of [without.guide, without.card]) {
    expect(html).not.toMatch(/href=""|Guide for this revision|newest revision/)
  }
  expect(without.card).not.toMatch(/class="guide-link">\s*\[picture\]/)
})

test("of a supplier only what is written is printed, without empty commas and dots", () => {
  const { identity } = makeKit()
  const supplier = { name: "Example Workshop", address: "", contact: "" }
  const { guide, card } = shown(makeProof({ identity: { ...identity, supplier } }))
  for (const html of [guide, card]) expect(html).not.toMatch(/, ,|Workshop, *[<."]|· *"| to \./)
  expect(guide).toContain("Example Workshop")
  expect(guide).toContain("to the supplier.")
})

test("without limits there is no heading for them", () => {
  const limits = { tube: undefined, tubeMm: undefined, loadKg: undefined, temperatureC: undefined, others: [] }
  const environment = { temperatureC: undefined, sun: false, wet: false, salt: false, vibration: false }
  const { guide } = shown(makeProof({ limits, environment }))
  expect(guide).not.toMatch(/>Fits<|>Limits<|<ul class="limits">\s*<\/ul>/)
})

test("torques of the maker are not called calculated; where some are, those are marked", () => {
  const { fit } = makeProof()
  const joints = fit.joints.map((joint) => ({ ...joint, torque: { ...joint.torque, origin: "maker" as const } }))
  const tried = shown(makeProof({}, { joints }))
  expect(tried.guide).not.toMatch(/calculated starting|Calculated torques/)
  expect(tried.card).not.toMatch(/Calculated|\*/)
  const mixed = shown(makeProof())
  expect(mixed.guide).toContain("Calculated torques are starting values")
  expect(mixed.card).toContain("1.25\u00a0N·m\u00a0*")
  expect(mixed.card).toContain("0.5\u00a0N·m<")
  expect(mixed.card).toContain("* Calculated")
})

test("a part that does not fit is compared with what page 1 has: tube, unit, or neither", () => {
  const { units } = makeKit()
  const none = { tube: undefined, tubeMm: undefined, loadKg: undefined, temperatureC: undefined, others: [] }
  const nameless = units.map((unit) => ({ ...unit, model: undefined }))
  expect(shown(makeProof()).guide).toContain("Compare the size of your tube and the type of your unit with page 1")
  expect(shown(makeProof({ limits: none })).guide).toContain("Compare the type of your unit with page 1")
  expect(shown(makeProof({ units: nameless })).guide).toContain("Compare the size of your tube with page 1")
  const bare = makeProof({ limits: none, units: nameless })
  expect(shown(bare).guide).toContain("Do not use force. Compare the part with the figure.")
  expect(shown(bare, "de").guide).toContain("Keine Gewalt anwenden. Das Teil mit dem Bild vergleichen.")
})

test("a unit that carries energy is never said to be without hazard", () => {
  const { units, cables } = makeKit()
  const named = units.map((unit) => ({ ...unit, isPowered: true }))
  const quiet = units.map((unit) => ({ ...unit, isPowered: false, dischargeMinutes: undefined }))
  const dead = cables.map((cable) => ({ ...cable, isLive: false }))
  expect(shown(makeProof({ hazards: [], units: named })).guide).toContain("The unit carries energy.")
  expect(shown(makeProof({ hazards: [], units: quiet, cables: dead })).guide).toContain(
    "No hazard to persons is known.",
  )
})
