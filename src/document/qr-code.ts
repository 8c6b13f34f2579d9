/** QR codes as pictures: ISO/IEC 18004, four clear modules all round, correction level M or better. */
import { encode } from "uqr"
import { toPicture } from "./figures.ts"
import type { Html } from "./render.ts"
import type { Sheet } from "./types.ts"

/** Five dots at 300 dpi; GS1 General Specifications 5.12.3.1 allows 0.396 mm and more. */
const moduleMm = 0.4233

/** Clear modules that ISO/IEC 18004 asks for on each side. */
const clearModules = 4

/** Draws a text as a QR code at `moduleMm` a module, margin included. */
export function renderQrCode(sheet: Sheet, text: string, alt: string): Html {
  const { data, size } = encode(text, { ecc: "M", border: 0 })
  const whole = size + 2 * clearModules
  const sideMm = whole * moduleMm
  const path = data
    .flatMap((row, y) =>
      runsOf(row).map(({ from, length }) => `M${from + clearModules} ${y + clearModules}h${length}v1h-${length}z`),
    )
    .join("")
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${sideMm.toFixed(3)}mm" height="${sideMm.toFixed(3)}mm"` +
    ` viewBox="0 0 ${whole} ${whole}" shape-rendering="crispEdges" role="img" aria-label="${alt.replace(/[<>&"]/g, "")}">` +
    `<path fill="#fff" d="M0 0h${whole}v${whole}h-${whole}z"/><path d="${path}"/></svg>`
  return toPicture(sheet, svg, alt, sideMm)
}

/** Runs of dark modules in one row. */
function runsOf(row: readonly boolean[]): readonly { readonly from: number; readonly length: number }[] {
  const runs: { from: number; length: number }[] = []
  row.forEach((isDark, x) => {
    const last = runs.at(-1)
    if (!isDark) return
    if (last !== undefined && last.from + last.length === x) last.length += 1
    else runs.push({ from: x, length: 1 })
  })
  return runs
}
