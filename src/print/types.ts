/** HTML to PDF. Knows pages, not parts. */

export type PrintJob = {
  readonly html: string
  /** For error messages, e.g. `guide.a4.pdf`. */
  readonly name: string
  /** Paper in mm; margins stand in the CSS (`@page`). */
  readonly widthMm: number
  readonly heightMm: number
  /** ISO date that both date fields of the PDF get, so that equal input gives equal bytes. */
  readonly date: string
}

/** One browser, a few reused pages. */
export type Printer = {
  /** Name and version, e.g. `Chromium 156.0.8078.79`. */
  readonly browser: string
  readonly print: (job: PrintJob) => Promise<Uint8Array>
  readonly close: () => Promise<void>
}
