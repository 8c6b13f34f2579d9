/** Makes the bytes of a PDF depend on its content alone: the browser writes the time of printing into it. */

/**
 * Replaces both date fields (`/CreationDate`, `/ModDate`) of `pdf` by midnight UTC of the ISO date `date`, in place
 * and of equal length, so that no offset in the file changes. Throws when a field is not there to be replaced.
 */
export function setDates(pdf: Uint8Array, date: string): Uint8Array {
  const stamp = `D:${date.replaceAll("-", "")}000000+00'00'`
  const bytes = Buffer.from(pdf)
  // Latin-1 keeps one character per byte, so positions in the text are positions in the file.
  const text = bytes.toString("latin1")
  let dateCount = 0
  for (const match of text.matchAll(/\/(?:CreationDate|ModDate) ?\((D:\d{14}[+-]\d\d'\d\d')\)/g)) {
    const [whole, written = ""] = match
    if (written.length !== stamp.length) throw new Error(`the PDF has a date of another form: ${written}`)
    bytes.write(stamp, match.index + whole.indexOf("D:"), "latin1")
    dateCount += 1
  }
  if (dateCount !== 2) throw new Error(`the PDF has ${dateCount} date fields, not 2`)
  return new Uint8Array(bytes)
}
