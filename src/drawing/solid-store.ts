/** Prepared meshes, each made once a run: equal screws and copies of a part share one. */
import type { Mesh } from "../solids/types.ts"
import { type PreparedMesh, prepareMesh } from "./prepare-mesh.ts"

export type SolidStore = { readonly get: (key: string, make: () => Mesh) => PreparedMesh }

/** An empty store; `key` must tell everything that the mesh depends on. */
export function makeSolidStore(): SolidStore {
  const known = new Map<string, PreparedMesh>()
  return {
    get: (key, make) => {
      const found = known.get(key)
      if (found !== undefined) return found
      const prepared = prepareMesh(make())
      known.set(key, prepared)
      return prepared
    },
  }
}
