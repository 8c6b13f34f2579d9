/** What the documents are made from. `document` chooses neither paper nor language: both come in. */
import type { Finding } from "../findings/types.ts"
import type { Fit } from "../fit/types.ts"
import type { Kit } from "../kit/types.ts"
import type { Sequence } from "../sequence/types.ts"

/** One checked variant, ready to be published. */
export type Proof = {
  readonly kit: Kit
  readonly fit: Fit
  readonly sequence: Sequence
  readonly findings: readonly Finding[]
}

/** Page and text sizes in mm. */
export type Sheet = {
  readonly name: "a4" | "letter" | "a6" | "screen"
  readonly widthMm: number
  readonly heightMm: number
  readonly marginMm: number
  /** Widest a figure may be. */
  readonly columnMm: number
  /**
   * `inline` puts drawings into the HTML as SVG elements; `image` as pictures with a text alternative, since the
   * browser prints an inline SVG outside the tags of a PDF (measured).
   */
  readonly figures: "inline" | "image"
}

/** Files that the documents are put together from; read by `build`. */
export type Assets = {
  /** Handlebars sources by name, without ending: `guide`, `step`, `card`, `index`. */
  readonly partials: Readonly<Record<string, string>>
  /** CSS by name: `guide`, `card`, `index`. */
  readonly styles: Readonly<Record<string, string>>
  /** `@font-face` rules with the fonts inlined. */
  readonly fontCss: string
}

/** A rendered document; `text` alternatives and outline are part of the HTML. */
export type Page = { readonly html: string; readonly title: string; readonly language: string }

/** One line of `out/index.html`. */
export type IndexEntry = {
  readonly kit: string
  readonly kitTitle: string
  readonly variant: string
  readonly variantTitle: string
  readonly fitsWords: string
  readonly revision: string
  readonly overviewSvg: string | undefined
  /** Links relative to the index; a missing document is left out. */
  readonly links: readonly { readonly kind: "guide" | "a4" | "letter" | "card" | "report"; readonly href: string }[]
  readonly errorCount: number
  readonly warningCount: number
  /** False when the newest build failed and the last good one stands in its place. */
  readonly isCurrent: boolean
  readonly verdict: string
}
