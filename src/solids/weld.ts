/** Brings together the corners that a triangle file writes once per triangle. */
import type { Mesh } from "./types.ts"

/** Corners nearer than this are one vertex; far below anything that can be made, above the rounding of 32-bit files. */
const weldMm = 1e-4

/**
 * Makes a mesh from loose corners (nine numbers a triangle): corners within 1e-4 mm of an earlier one become that one,
 * triangles of which two corners fell together are dropped and counted.
 */
export function weldCorners(corners: Float64Array): { readonly mesh: Mesh; readonly droppedCount: number } {
  const exact = new Map<number, Map<number, Map<number, number>>>()
  const cells = new Map<string, number[]>()
  const positions: number[] = []
  const vertexOf = (x: number, y: number, z: number): number => {
    const plane = exact.get(x) ?? remember(exact, x)
    const line = plane.get(y) ?? remember(plane, y)
    const known = line.get(z)
    if (known !== undefined) return known
    const vertex = nearVertex(x, y, z) ?? addVertex(x, y, z)
    line.set(z, vertex)
    return vertex
  }
  const nearVertex = (x: number, y: number, z: number): number | undefined => {
    for (const cellX of cellsRound(x)) {
      for (const cellY of cellsRound(y)) {
        for (const cellZ of cellsRound(z)) {
          for (const vertex of cells.get(`${cellX},${cellY},${cellZ}`) ?? []) {
            const apartMm = Math.hypot(
              x - (positions[vertex * 3] ?? 0),
              y - (positions[vertex * 3 + 1] ?? 0),
              z - (positions[vertex * 3 + 2] ?? 0),
            )
            if (apartMm <= weldMm) return vertex
          }
        }
      }
    }
    return undefined
  }
  const addVertex = (x: number, y: number, z: number): number => {
    const vertex = positions.length / 3
    positions.push(x, y, z)
    const key = `${cellOf(x)},${cellOf(y)},${cellOf(z)}`
    const cell = cells.get(key)
    if (cell === undefined) cells.set(key, [vertex])
    else cell.push(vertex)
    return vertex
  }
  const triangles: number[] = []
  let droppedCount = 0
  for (let start = 0; start + 8 < corners.length; start += 9) {
    const [a, b, c] = [0, 3, 6].map((offset) => {
      const from = start + offset
      return vertexOf((corners[from] ?? 0) + 0, (corners[from + 1] ?? 0) + 0, (corners[from + 2] ?? 0) + 0)
    })
    if (a === undefined || b === undefined || c === undefined) continue
    if (a === b || b === c || c === a) droppedCount += 1
    else triangles.push(a, b, c)
  }
  return {
    mesh: { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) },
    droppedCount,
  }
}

function remember<Value>(map: Map<number, Map<number, Value>>, key: number): Map<number, Value> {
  const made = new Map<number, Value>()
  map.set(key, made)
  return made
}

/** Cells are ten times as wide as the weld, so that most points need a look into one cell only. */
function cellOf(value: number): number {
  return Math.floor(value / (10 * weldMm))
}

function cellsRound(value: number): readonly number[] {
  const [low, high] = [cellOf(value - weldMm), cellOf(value + weldMm)]
  return low === high ? [low] : [low, high]
}
