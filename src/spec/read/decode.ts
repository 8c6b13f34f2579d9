/** Bytes of a file to text: byte order mark, line ends and old encodings. */
import { fault, type Tell } from "../tell.ts"
import type { Span } from "./tree.ts"

/** Larger than any spec typed by hand; a bigger file is most likely a mesh or a picture under a wrong name. */
const mostBytes = 2_000_000

/** Windows-1252 letters of 0x80 to 0x9F, from the WHATWG Encoding Standard, index windows-1252; 0xA0 up are Latin-1. */
const windows1252 = "€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ"

export type Decoded = { readonly text: string; readonly isReadable: boolean }

/**
 * Gives the text of a file with line feeds only and without a byte order mark.
 * Bytes that are no UTF-8 are read as Windows-1252, and a note says so; UTF-16 and binary files are told and left out.
 */
export function decodeFile(file: string, bytes: Uint8Array, tell: Tell): Decoded {
  const start: Span = { file, line: 1, column: 1, endLine: 1, endColumn: 1 }
  if (bytes.length > mostBytes) {
    const message = `\`${file}\` is ${Math.round(bytes.length / 1e5) / 10} MB large; a spec has at most 2 MB`
    tell(fault("file-too-large", "error", { message, at: start, fix: "check that this is the spec and no other file" }))
    return { text: "", isReadable: false }
  }
  const isUtf16 = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)
  if (isUtf16 || bytes.includes(0)) {
    const message = `\`${file}\` is ${isUtf16 ? "UTF-16 text" : "no text file"}; a spec is UTF-8 text`
    tell(fault("file-not-text", "error", { message, at: start, fix: "save it as UTF-8" }))
    return { text: "", isReadable: false }
  }
  const hasMark = bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf
  const body = hasMark ? bytes.subarray(3) : bytes
  return { text: readLetters(file, body, tell).replace(/\r\n?/g, "\n"), isReadable: true }
}

function readLetters(file: string, bytes: Uint8Array, tell: Tell): string {
  const wrongAt = firstWrongByte(bytes)
  if (wrongAt === undefined) return new TextDecoder("utf-8").decode(bytes)
  const text = Array.from(bytes, letterOf).join("")
  const before = text.slice(0, wrongAt).split(/\r\n?|\n/)
  const line = before.length
  const column = (before.at(-1) ?? "").length + 1
  const message = `\`${file}\` is not UTF-8; \`${text[wrongAt]}\` was read as Windows-1252`
  const at = { file, line, column, endLine: line, endColumn: column + 1 }
  tell(
    fault("file-not-utf8", "note", {
      message,
      at,
      fix: "save the file as UTF-8, so that every program reads the same",
    }),
  )
  return text
}

function letterOf(byte: number): string {
  return byte >= 0x80 && byte < 0xa0 ? (windows1252[byte - 0x80] ?? "") : String.fromCharCode(byte)
}

/** Index of the first byte that breaks UTF-8 (RFC 3629, section 4), or undefined. */
function firstWrongByte(bytes: Uint8Array): number | undefined {
  let index = 0
  while (index < bytes.length) {
    const lead = bytes[index] ?? 0
    const more =
      lead < 0x80
        ? 0
        : lead >= 0xc2 && lead < 0xe0
          ? 1
          : lead >= 0xe0 && lead < 0xf0
            ? 2
            : lead >= 0xf0 && lead < 0xf5
              ? 3
              : -1
    if (more < 0) return index
    for (let step = 1; step <= more; step += 1) {
      const next = bytes[index + step] ?? 0
      const least = step > 1 ? 0x80 : lead === 0xe0 ? 0xa0 : lead === 0xf0 ? 0x90 : 0x80
      const most = step > 1 ? 0xbf : lead === 0xed ? 0x9f : lead === 0xf4 ? 0x8f : 0xbf
      if (next < least || next > most) return index
    }
    index += more + 1
  }
  return undefined
}
