/** Digits, a few letters and the times sign as strokes, in the proportions of ISO 3098 type B (drawn by us). */

/** Strokes of one character on a field 10 units high with the baseline at 0, y upward; width without side space. */
type Glyph = { readonly width: number; readonly strokes: readonly (readonly number[])[] }

/** Points of an arc round (cx, cy), angles in degrees, counter-clockwise when `to` is above `from`. */
function arc(cx: number, cy: number, rx: number, ry: number, fromDeg: number, toDeg: number): readonly number[] {
  const stepCount = Math.max(4, Math.ceil(Math.abs(toDeg - fromDeg) / 15))
  return Array.from({ length: stepCount + 1 }, (_, step) => {
    const angle = ((fromDeg + ((toDeg - fromDeg) * step) / stepCount) * Math.PI) / 180
    return [cx + rx * Math.cos(angle), cy + ry * Math.sin(angle)]
  }).flat()
}

const glyphs: Readonly<Record<string, Glyph>> = {
  "0": {
    width: 5,
    strokes: [[...arc(2.5, 7.5, 2.5, 2.5, 0, 180), ...arc(2.5, 2.5, 2.5, 2.5, 180, 360), 5, 7.5]],
  },
  "1": { width: 2.5, strokes: [[0, 7.5, 2.5, 10, 2.5, 0]] },
  "2": { width: 5, strokes: [[...arc(2.5, 7.5, 2.5, 2.5, 170, -35), 0, 0, 5, 0]] },
  "3": {
    width: 5,
    strokes: [[...arc(2.4, 7.7, 2.3, 2.3, 155, -90), ...arc(2.4, 2.7, 2.6, 2.7, 90, -155)]],
  },
  "4": { width: 5, strokes: [[3.6, 0, 3.6, 10, 0, 2.6, 5, 2.6]] },
  "5": { width: 5, strokes: [[4.6, 10, 0.7, 10, 0.3, 5.4, ...arc(2.3, 3.2, 2.7, 3.2, 125, -145)]] },
  "6": { width: 5, strokes: [[4.2, 10, ...arc(4.4, 3, 4.4, 6.4, 130, 180), ...arc(2.5, 3, 2.5, 3, 180, 540)]] },
  "7": { width: 5, strokes: [[0, 10, 5, 10, 1.6, 0]] },
  "8": {
    width: 5,
    strokes: [arc(2.5, 7.65, 2.25, 2.35, -90, 270), arc(2.5, 2.65, 2.5, 2.65, 90, 450)],
  },
  "9": { width: 5, strokes: [[0.8, 0, ...arc(0.6, 7, 4.4, 6.4, -50, 0), ...arc(2.5, 7, 2.5, 3, 0, 360)]] },
  "×": {
    width: 5,
    strokes: [
      [0.3, 1.2, 4.7, 5.6],
      [0.3, 5.6, 4.7, 1.2],
    ],
  },
  X: {
    width: 5,
    strokes: [
      [0, 0, 5, 10],
      [0, 10, 5, 0],
    ],
  },
  Y: {
    width: 5,
    strokes: [
      [0, 10, 2.5, 5, 5, 10],
      [2.5, 5, 2.5, 0],
    ],
  },
  Z: { width: 5, strokes: [[0, 10, 5, 10, 0, 0, 5, 0]] },
}

/** Clear space between two characters and width of a space, in tenths of the height. */
const gap = 2.5
const space = 4

/** Width of a text in mm when its characters are `heightMm` high. */
export function measureLettering(text: string, heightMm: number): number {
  const units = [...text].reduce((sum, letter) => sum + (glyphs[letter]?.width ?? space) + gap, -gap)
  return (Math.max(0, units) * heightMm) / 10
}

/** Strokes of a text whose lower left corner is at (xMm, yMm), y downward. Unknown characters are a space. */
export function strokeLettering(
  text: string,
  heightMm: number,
  xMm: number,
  yMm: number,
): readonly (readonly number[])[] {
  const unitMm = heightMm / 10
  const strokes: (readonly number[])[] = []
  let at = 0
  for (const letter of text) {
    const glyph = glyphs[letter]
    for (const stroke of glyph?.strokes ?? []) {
      strokes.push(stroke.map((value, index) => (index % 2 === 0 ? xMm + (at + value) * unitMm : yMm - value * unitMm)))
    }
    at += (glyph?.width ?? space) + gap
  }
  return strokes
}
