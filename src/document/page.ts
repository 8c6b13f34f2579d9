/** The frame of every document: language, policy, styles, running heads. */
import { type Html, renderPartial } from "./render.ts"
import type { Assets, Page, Sheet } from "./types.ts"
import type { Words } from "./words/types.ts"

/** What stands in the margins of every printed page. */
export type RunningHead = { readonly left: string; readonly right: string; readonly foot: string }

/** Nothing is fetched, nothing runs; styles, fonts and pictures come inlined. */
const policy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'"

/** Puts a rendered body into a complete HTML document. `styles` names the CSS files, first to last. */
export function renderPage(options: {
  readonly assets: Assets
  readonly words: Words
  readonly title: string
  readonly body: string
  readonly styles: readonly string[]
  readonly pageCss: string
}): Page {
  const { assets, words, title, body, styles, pageCss } = options
  const css = styles.map((name) => {
    const text = assets.styles[name]
    if (text === undefined) throw new Error(`style \`${name}\` is missing`)
    return text
  })
  const style: Html = { html: [assets.fontCss, ...css, pageCss].join("\n") }
  const html = renderPartial(assets, "page", { language: words.language, title, policy, style, body: { html: body } })
  return { html, title, language: words.language }
}

/** `@page` rules with running heads and page numbers; a screen sheet leaves the paper to the reader's printer. */
export function makePageCss(sheet: Sheet, words: Words, head: RunningHead): string {
  // Page numbers exist only in CSS, so the sentence is made with marks where they stand.
  const pageNumber = words.about
    .pageOf("\ue000", "\ue001")
    .split(/([\ue000\ue001])/)
    .map((piece) => (piece === "\ue000" ? "counter(page)" : piece === "\ue001" ? "counter(pages)" : quoteCss(piece)))
    .join(" ")
  const size = sheet.name === "screen" ? "" : `size: ${sheet.widthMm}mm ${sheet.heightMm}mm;`
  return `@page { ${size} margin: ${sheet.name === "a6" ? cardMargins : guideMargins(sheet)};
  @top-left { content: ${quoteCss(head.left)} }
  @top-right { content: ${quoteCss(head.right)} }
  @bottom-left { content: ${quoteCss(head.foot)} }
  @bottom-right { content: ${pageNumber} }
}`
}

const cardMargins = "9mm 6mm 8mm"

/** Text is 170 mm wide on A4 and Letter alike, so both break lines in the same places. */
function guideMargins({ widthMm, marginMm }: Sheet): string {
  return `19mm ${Math.max((widthMm - 170) / 2, marginMm)}mm 16mm`
}

/** A CSS string; also safe inside a `style` element. */
function quoteCss(text: string): string {
  const escaped = text.replace(/[\\"<>\n\r]/g, (sign) => `\\${sign.codePointAt(0)?.toString(16)} `)
  return `"${escaped}"`
}
