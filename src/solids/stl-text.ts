/** STL files written as text: `solid`, `facet`, `vertex x y z`, `endsolid`. */

/** Corners of all triangles, nine numbers each, or the line (from 1) that does not follow the format and what it says. */
export type TextCorners = { readonly corners: Float64Array } | { readonly line: number; readonly told: string }

/**
 * Reads the text form. Gives undefined when the bytes are no such text: they do not begin with `solid`, or no `facet`
 * or `endsolid` follows (binary files may begin with `solid` as well). Upper case, tabs and any line ends are taken.
 */
export function readTextCorners(bytes: Uint8Array): TextCorners | undefined {
  const head = decode(bytes.subarray(0, 2000)).trimStart().toLowerCase()
  if (!head.startsWith("solid")) return undefined
  if (!/\n\s*(facet|endsolid)/.test(head.replaceAll("\r", "\n"))) return undefined
  const lines = decode(bytes).split(/\r\n|\n|\r/)
  const corners: number[] = []
  let vertexCount = 0
  for (const [index, written] of lines.entries()) {
    const words = written.trim().split(/\s+/)
    const [keyword = "", ...numbers] = words
    switch (keyword.toLowerCase()) {
      case "vertex": {
        const values = numbers.map(Number)
        if (values.length !== 3 || numbers.some((number) => !isNumberText(number))) {
          return { line: index + 1, told: "a vertex has three numbers" }
        }
        corners.push(...values)
        vertexCount += 1
        break
      }
      case "endfacet":
        if (vertexCount !== 3) return { line: index + 1, told: `a facet has 3 vertices, this one ${vertexCount}` }
        vertexCount = 0
        break
      case "facet":
      case "solid":
      case "endsolid":
        if (vertexCount !== 0) return { line: index + 1, told: "the facet before is not ended" }
        break
      case "outer":
      case "endloop":
      case "":
        break
      default:
        return { line: index + 1, told: "no word of the format" }
    }
  }
  if (!/endsolid/i.test(lines.slice(-20).join("\n"))) return { line: lines.length, told: "`endsolid` is missing" }
  return { corners: Float64Array.from(corners) }
}

/** Numbers as programs print them; words such as `nan` or `inf` are let through, the reader of the mesh names them. */
function isNumberText(text: string): boolean {
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(text) || /^[-+]?(nan|inf(inity)?)(\(.*\))?$/i.test(text)
}

function decode(bytes: Uint8Array): string {
  return new TextDecoder("latin1").decode(bytes)
}
