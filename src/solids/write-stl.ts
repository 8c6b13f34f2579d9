/** Writes meshes as binary STL files. */
import { cornersOf } from "./bounds.ts"
import type { Mesh } from "./types.ts"
import { cross, subtract, unit } from "./vectors.ts"

/** Gives the bytes of a binary STL file, in mm; the header says nothing about place or time, so equal meshes give equal bytes. */
export function writeStl(mesh: Mesh): Uint8Array {
  const count = mesh.triangles.length / 3
  const bytes = new Uint8Array(84 + count * 50)
  bytes.set(new TextEncoder().encode("binary STL, millimetres"))
  const view = new DataView(bytes.buffer)
  view.setUint32(80, count, true)
  for (let triangle = 0; triangle < count; triangle += 1) {
    const [a, b, c] = cornersOf(mesh, triangle)
    const numbers = [unit(cross(subtract(b, a), subtract(c, a))), a, b, c].flat()
    numbers.forEach((value, index) => {
      view.setFloat32(84 + triangle * 50 + index * 4, value, true)
    })
  }
  return bytes
}
