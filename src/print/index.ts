/** HTML to PDF with one browser and a few reused pages. Nothing leaves the machine, no file is read, no script runs. */
export { type BrowserSearch, findBrowser } from "./find-browser.ts"
export { openPrinter, type PrinterOptions } from "./printer.ts"
