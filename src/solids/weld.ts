/** Brings together the corners that a triangle file writes once per triangle. */
import type { Mesh } from "./types.ts"

/** Corners nearer than this are one vertex; far below anything that can be made, above the rounding of 32-bit files. */
const weldMm = 1e-4

/** Cells are ten times as wide as the weld, so that most points need a look into one cell only. */
const cellMm = 10 * weldMm

/**
 * Makes a mesh from loose corners (nine numbers a triangle): corners within 1e-4 mm of an earlier one become that one,
 * triangles of which two corners fell together are dropped and counted. Coordinates must be below 1e9 mm, where cells
 * can still be counted.
 */
export function weldCorners(corners: Float64Array): { readonly mesh: Mesh; readonly droppedCount: number } {
  const table = makeTable(corners.length / 3)
  const triangles: number[] = []
  let droppedCount = 0
  for (let start = 0; start + 8 < corners.length; start += 9) {
    const a = vertexOf(table, corners, start)
    const b = vertexOf(table, corners, start + 3)
    const c = vertexOf(table, corners, start + 6)
    if (a === b || b === c || c === a) droppedCount += 1
    else triangles.push(a, b, c)
  }
  const positions = table.kept.slice(0, table.count * 3)
  return { mesh: { positions, triangles: Uint32Array.from(triangles) }, droppedCount }
}

/** Vertices by cell, on plain arrays, since files are large. */
type VertexTable = {
  readonly mask: number
  /** Last vertex of each cell, by the hash of the cell. */
  readonly heads: Int32Array
  /** The vertex before it in the same cell. */
  readonly nexts: Int32Array
  readonly kept: Float64Array
  count: number
}

function makeTable(cornerCount: number): VertexTable {
  const size = 2 ** Math.max(4, Math.ceil(Math.log2(cornerCount + 1)))
  return {
    mask: size - 1,
    heads: new Int32Array(size).fill(-1),
    nexts: new Int32Array(cornerCount),
    kept: new Float64Array(cornerCount * 3),
    count: 0,
  }
}

/** The vertex for the corner at `start`, a new one when none is near. */
function vertexOf(table: VertexTable, corners: Float64Array, start: number): number {
  // Adding 0 turns -0 into 0, so that equal places are equal bytes.
  const [x, y, z] = [(corners[start] ?? 0) + 0, (corners[start + 1] ?? 0) + 0, (corners[start + 2] ?? 0) + 0]
  const [highX, highY, highZ] = [cellOf(x + weldMm), cellOf(y + weldMm), cellOf(z + weldMm)]
  for (let cellX = cellOf(x - weldMm); cellX <= highX; cellX += 1) {
    for (let cellY = cellOf(y - weldMm); cellY <= highY; cellY += 1) {
      for (let cellZ = cellOf(z - weldMm); cellZ <= highZ; cellZ += 1) {
        const near = nearIn(table, slotOf(table, cellX, cellY, cellZ), x, y, z)
        if (near >= 0) return near
      }
    }
  }
  const vertex = table.count
  table.count += 1
  table.kept[vertex * 3] = x
  table.kept[vertex * 3 + 1] = y
  table.kept[vertex * 3 + 2] = z
  const slot = slotOf(table, cellOf(x), cellOf(y), cellOf(z))
  table.nexts[vertex] = table.heads[slot] ?? -1
  table.heads[slot] = vertex
  return vertex
}

function nearIn({ heads, nexts, kept }: VertexTable, slot: number, x: number, y: number, z: number): number {
  for (let vertex = heads[slot] ?? -1; vertex >= 0; vertex = nexts[vertex] ?? -1) {
    const byX = x - (kept[vertex * 3] ?? 0)
    const byY = y - (kept[vertex * 3 + 1] ?? 0)
    const byZ = z - (kept[vertex * 3 + 2] ?? 0)
    if (byX * byX + byY * byY + byZ * byZ <= weldMm * weldMm) return vertex
  }
  return -1
}

function slotOf({ mask }: VertexTable, cellX: number, cellY: number, cellZ: number): number {
  const mixed = Math.imul(cellX, 0x9e3779b1) ^ Math.imul(cellY, 0x85ebca6b) ^ Math.imul(cellZ, 0xc2b2ae35)
  return (mixed ^ (mixed >>> 15)) & mask
}

function cellOf(value: number): number {
  return Math.floor(value / cellMm)
}
