/** The mesh kernel behind our own operations; its objects live outside the collected heap and never leave this file's calls. */
import loadModule, { type Manifold, type ManifoldToplevel } from "manifold-3d"
import { makeSolid } from "./shapes.ts"
import type { Kernel, Mesh } from "./types.ts"

/** What an operation may use: the kernel, and `keep` for every object it makes, so that all are freed at its end. */
export type Workshop = {
  readonly toplevel: ManifoldToplevel
  readonly keep: <Thing extends { delete: () => void }>(thing: Thing) => Thing
}

/** Loads the kernel; all its methods are synchronous. Loading twice gives two independent kernels. */
export async function loadKernel(): Promise<Kernel> {
  const toplevel = await loadModule()
  toplevel.setup()
  const run = <Result>(operation: (workshop: Workshop) => Result): Result => {
    const made: { delete: () => void }[] = []
    const keep = <Thing extends { delete: () => void }>(thing: Thing): Thing => {
      made.push(thing)
      return thing
    }
    try {
      return operation({ toplevel, keep })
    } finally {
      for (const thing of made.reverse()) thing.delete()
    }
  }
  return {
    make: (shape) => run((workshop) => readSolid(makeSolid(workshop, shape))),
    union: (meshes) =>
      run((workshop) => {
        const solids = takeAll(workshop, meshes)
        return solids && readSolid(workshop.keep(toplevel.Manifold.union(solids)))
      }),
    subtract: (from, tools) =>
      run((workshop) => {
        const solids = takeAll(workshop, [from, ...tools])
        return solids && readSolid(workshop.keep(toplevel.Manifold.difference(solids)))
      }),
    overlap: (one, other) =>
      run((workshop) => {
        const solids = takeAll(workshop, [one, other])
        if (solids === undefined) return undefined
        const common = workshop.keep(toplevel.Manifold.intersection(solids))
        return { volumeMm3: common.volume(), mesh: readSolid(common) }
      }),
    volumeMm3: (mesh) => run((workshop) => takeSolid(workshop, mesh)?.volume()),
  }
}

/** All meshes as kernel solids, or undefined when one of them is not closed. */
function takeAll(workshop: Workshop, meshes: readonly Mesh[]): Manifold[] | undefined {
  const solids = meshes.map((mesh) => takeSolid(workshop, mesh))
  const closed = solids.filter((solid) => solid !== undefined)
  return closed.length === solids.length ? closed : undefined
}

function takeSolid({ toplevel, keep }: Workshop, mesh: Mesh): Manifold | undefined {
  // The constructor asks for no triangles at all to be a fault; an empty solid is a fair operand.
  if (mesh.triangles.length === 0) return keep(toplevel.Manifold.union([]))
  const handed = new toplevel.Mesh({
    numProp: 3,
    vertProperties: Float32Array.from(mesh.positions),
    triVerts: mesh.triangles.slice(),
  })
  try {
    return keep(new toplevel.Manifold(handed))
  } catch (fault) {
    // The kernel throws its own fault with a status as code for meshes that are not closed; anything else is ours.
    if (fault instanceof Error && fault.name === "ManifoldError") return undefined
    throw fault
  }
}

function readSolid(solid: Manifold): Mesh {
  const { numProp, vertProperties, triVerts } = solid.getMesh()
  const vertexCount = vertProperties.length / numProp
  const positions = new Float64Array(vertexCount * 3)
  for (let vertex = 0; vertex < vertexCount; vertex += 1) {
    for (let axis = 0; axis < 3; axis += 1) positions[vertex * 3 + axis] = vertProperties[vertex * numProp + axis] ?? 0
  }
  return { positions, triangles: Uint32Array.from(triVerts) }
}
