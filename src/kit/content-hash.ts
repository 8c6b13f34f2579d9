/** A short name for the content of a mesh. */
import type { Mesh } from "../solids/types.ts"

/**
 * Gives 16 hexadecimal digits that are equal for equal meshes: two runs of FNV-1a (32 bit, Fowler, Noll, Vo) over the
 * words of the arrays, started differently. Made for telling apart the few hundred meshes of a kit, not against forgery.
 */
export function hashMesh(mesh: Mesh): string {
  const words = [
    Uint32Array.of(mesh.positions.length, mesh.triangles.length),
    new Uint32Array(mesh.positions.buffer, mesh.positions.byteOffset, mesh.positions.length * 2),
    mesh.triangles,
  ]
  let [one, other] = [0x811c9dc5, 0x9e3779b9]
  for (const list of words) {
    for (const word of list) {
      one = Math.imul(one ^ word, 0x01000193)
      one ^= one >>> 15
      other = Math.imul(other ^ word, 0x85ebca6b)
      other ^= other >>> 13
    }
  }
  return hexadecimal(one) + hexadecimal(other)
}

function hexadecimal(word: number): string {
  return (word >>> 0).toString(16).padStart(8, "0")
}
