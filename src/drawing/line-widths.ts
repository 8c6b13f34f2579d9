/**
 * Width, dash and colour of each line role: the one table that every drawing prints from. Widths are of the series of ISO
 * 128-2 with wide lines twice the narrow ones; nothing printed is thinner than 0.18 mm.
 */
import type { LineRole } from "./types.ts"

export type LineStyle = {
  readonly widthMm: number
  /** Dashes and gaps in mm; empty for a continuous line. */
  readonly dashMm: readonly number[]
  readonly colour: string
}

const black = "#000"

/** Style of each role. */
export const lineStyles: Readonly<Record<LineRole, LineStyle>> = {
  host: { widthMm: 0.18, dashMm: [], colour: "#444" },
  context: { widthMm: 0.18, dashMm: [], colour: black },
  new: { widthMm: 0.35, dashMm: [], colour: black },
  path: { widthMm: 0.18, dashMm: [3.6, 0.6, 0.2, 0.6], colour: black },
  // ISO 128-2: a dot is five line widths across.
  dot: { widthMm: 1, dashMm: [], colour: black },
  // ISO 128-2, long-dashed double-dotted: 24 d, 3 d, 0.5 d, 3 d, 0.5 d, 3 d.
  phantom: { widthMm: 0.18, dashMm: [4.32, 0.54, 0.09, 0.54, 0.09, 0.54], colour: black },
  leader: { widthMm: 0.18, dashMm: [], colour: black },
  // ISO 3098, type B: a tenth of the height, for 5 mm.
  reference: { widthMm: 0.5, dashMm: [], colour: black },
  count: { widthMm: 0.35, dashMm: [], colour: black },
  arrow: { widthMm: 0.7, dashMm: [], colour: black },
  triad: { widthMm: 0.25, dashMm: [], colour: black },
  dimension: { widthMm: 0.18, dashMm: [], colour: black },
}

/** Order in which roles are laid over each other, lowest first. */
export const layerOrder: readonly LineRole[] = [
  "host",
  "phantom",
  "context",
  "path",
  "dimension",
  "new",
  "arrow",
  "leader",
  "dot",
  "triad",
  "count",
  "reference",
]
