/** The numeric limits of use, worded once for guide, card and index. */
import type { Kit } from "../kit/types.ts"
import { startLine } from "./names.ts"
import type { Words } from "./words/types.ts"

/** `Round tube, outside diameter 31.5 mm to 32.5 mm`, load, temperature, further limits: one phrase each. */
export function sayLimits(kit: Kit, words: Words): readonly string[] {
  const { front, measures } = words
  const { tube, tubeMm, loadKg, temperatureC, others } = kit.limits
  const lines: string[] = []
  if (tubeMm !== undefined) lines.push(front.tube(tube, measures.range(tubeMm, measures.mm)))
  if (loadKg !== undefined) lines.push(front.load(measures.kg(loadKg)))
  if (temperatureC !== undefined) lines.push(front.temperature(measures.range(temperatureC, measures.celsius)))
  return [...lines, ...others.map(({ name, value }) => front.other(startLine(name), value))]
}
