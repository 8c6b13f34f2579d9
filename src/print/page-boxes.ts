/** Page sizes read back from a PDF, so that a page rule the browser did not understand never reaches paper. */
import type { PrintJob } from "./types.ts"

const pointMm = 25.4 / 72

/** Chromium rounds pages to whole dots of its own: A6 comes out 0.16 mm larger (measured with version 156). */
const allowedMm = 0.3

/** Gives width and height in mm of every page, in the order of the file, as written in its `/MediaBox` entries. */
export function readPageSizes(pdf: Uint8Array): readonly { readonly widthMm: number; readonly heightMm: number }[] {
  const text = Buffer.from(pdf).toString("latin1")
  return [...text.matchAll(/\/MediaBox ?\[([-\d. ]+)\]/g)].map(([, numbers = ""]) => {
    const [left = 0, bottom = 0, right = 0, top = 0] = numbers.trim().split(/\s+/).map(Number)
    return { widthMm: (right - left) * pointMm, heightMm: (top - bottom) * pointMm }
  })
}

/** Gives one sentence for the first page that is not of the size the job asks for; undefined when all are. */
export function findWrongPage(pdf: Uint8Array, job: PrintJob): string | undefined {
  const sizes = readPageSizes(pdf)
  if (sizes.length === 0) return `${job.name} has no pages`
  const isOff = (oneMm: number, otherMm: number): boolean => Math.abs(oneMm - otherMm) > allowedMm
  const index = sizes.findIndex(({ widthMm, heightMm }) => isOff(widthMm, job.widthMm) || isOff(heightMm, job.heightMm))
  const size = sizes[index]
  if (size === undefined) return undefined
  const [is, needed] = [size, job].map(({ widthMm, heightMm }) => `${widthMm.toFixed(1)} x ${heightMm.toFixed(1)} mm`)
  return `page ${index + 1} of ${job.name} is ${is}, it should be ${needed}`
}
