/** The papers that documents are made for. Which one is used is the caller's choice. */
import type { Sheet } from "./types.ts"

/**
 * Text is 170 mm wide on A4 and Letter, of which a figure may take 144 mm beside the labels. `screen` leaves the paper
 * to the reader's printer. Sizes after ISO 216 and ANSI Y14.1.
 */
export const sheets: Readonly<Record<Sheet["name"], Sheet>> = {
  screen: { name: "screen", widthMm: 210, heightMm: 297, marginMm: 20, columnMm: 144, figures: "inline" },
  a4: { name: "a4", widthMm: 210, heightMm: 297, marginMm: 20, columnMm: 144, figures: "image" },
  letter: { name: "letter", widthMm: 215.9, heightMm: 279.4, marginMm: 20, columnMm: 144, figures: "image" },
  a6: { name: "a6", widthMm: 105, heightMm: 148, marginMm: 6, columnMm: 93, figures: "image" },
}
