/** Documents from a proved variant: guide, card, index, report. */
import { de } from "./words/de.ts"
import { en } from "./words/en.ts"
import type { Words } from "./words/types.ts"

export { renderCard } from "./card.ts"
export { renderGuide } from "./guide.ts"
export { renderIndex } from "./index-page.ts"
export { sayLimits } from "./limits.ts"
export { renderReport } from "./report.ts"
export { sheets } from "./sheets.ts"
export type { Assets, IndexEntry, Page, Proof, Sheet } from "./types.ts"
export type { Words } from "./words/types.ts"

/** The word tables by language tag. */
export const wordTables: Readonly<Record<string, Words>> = { en, de }
