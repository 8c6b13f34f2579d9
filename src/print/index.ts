/** HTML to PDF with one browser and a few reused pages. Nothing leaves the machine, no file is read, no script runs. */
export { findBrowser } from "./find-browser.ts"
export { openPrinter } from "./printer.ts"
