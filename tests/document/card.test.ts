import jsqr from "jsqr"
import { expect, test } from "vitest"
import { renderCard, sheets, wordTables } from "../../src/document/index.ts"
import { renderQrCode } from "../../src/document/qr-code.ts"
import { makeDrawings, makeProof, readAssets } from "./fixture.ts"

const words = wordTables.en
if (words === undefined) throw new Error("the English words are missing")
const proof = makeProof()
const card = renderCard({ proof, drawings: makeDrawings(), sheet: sheets.a6, words, assets: readAssets() }).html

/** Reads the modules back from the path of a QR code and makes a picture with some dots per module. */
function rasterise(svg: string, dots: number): { data: Uint8ClampedArray; side: number; whole: number } {
  const whole = Number(/viewBox="0 0 (\d+)/.exec(svg)?.[1])
  const side = whole * dots
  const data = new Uint8ClampedArray(4 * side * side).fill(255)
  const path = /<path d="([^"]*)"/.exec(svg)?.[1] ?? ""
  for (const [, x, y, length] of path.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)) {
    for (let row = Number(y) * dots; row < (Number(y) + 1) * dots; row += 1) {
      for (let column = Number(x) * dots; column < (Number(x) + Number(length)) * dots; column += 1) {
        data.fill(0, 4 * (row * side + column), 4 * (row * side + column) + 3)
      }
    }
  }
  return { data, side, whole }
}

test("the QR code holds the address of the guide", () => {
  const address = proof.kit.identity.revision.guide
  const { html } = renderQrCode({ ...sheets.a6, figures: "inline" }, address, "code")
  const { data, side } = rasterise(html, 4)
  // The package is CommonJS: its function stands under `default`.
  const decode = (jsqr as unknown as { default?: typeof jsqr }).default ?? jsqr
  expect(
    (decode as unknown as (data: Uint8ClampedArray, width: number, height: number) => { data: string } | null)(
      data,
      side,
      side,
    )?.data,
  ).toBe(address)
})

test("the QR code has four clear modules all round and modules of 0.4 mm or more (ISO/IEC 18004, GS1 5.12.3.1)", () => {
  const { html } = renderQrCode({ ...sheets.a6, figures: "inline" }, "https://example.invalid/a", "code")
  const { whole } = rasterise(html, 1)
  const widthMm = Number(/width="([\d.]+)mm"/.exec(html)?.[1])
  expect(widthMm / whole).toBeGreaterThanOrEqual(0.4)
  const cells = [...html.matchAll(/M(\d+) (\d+)h(\d+)v1h-\d+z/g)].map(([, x, y, length]) => [
    Number(x),
    Number(y),
    Number(length),
  ])
  expect(Math.min(...cells.map(([x = 0]) => x))).toBe(4)
  expect(Math.min(...cells.map(([, y = 0]) => y))).toBe(4)
  expect(Math.max(...cells.map(([x = 0, , length = 0]) => x + length))).toBe(whole - 4)
})

test("the card names kit, variant, limits, supplier, revision and the address in letters", () => {
  for (const words of [
    "Arm for a rain gauge",
    "Round mast 32",
    "31.5\u00a0mm to 32.5\u00a0mm",
    "1.2\u00a0kg",
    "help@example.invalid",
    "https://example.invalid/arm/b",
    "Read the guide",
  ]) {
    expect(card).toContain(words)
  }
  expect(card).toContain("Revision B")
  expect(card).toContain("size: 105mm 148mm")
})

test("the card repeats the two worst hazards, the worst first", () => {
  const signals = [...card.matchAll(/class="message (\w+)"/g)].map(([, signal]) => signal)
  expect(signals).toEqual(["warning", "caution"])
})

test("the card lists every item of every bag with its count, and every torque", () => {
  for (const item of proof.fit.box) {
    const count = item.count + item.spare
    expect(card).toMatch(
      new RegExp(`<td class="reference">${item.itemReference}</td><td class="count">${count}\u00a0×</td>`),
    )
  }
  for (const torque of ["1.25\u00a0N·m", "1.1\u00a0N·m", "0.5\u00a0N·m"]) expect(card).toContain(torque)
})
