/** Meshes and placements as plain arrays. All lengths in mm. */

export type Vec3 = readonly [number, number, number]

/** Triangles over shared vertices: `positions` xyz xyz ..., `triangles` three vertex indexes each, outward by the right hand. */
export type Mesh = { readonly positions: Float64Array; readonly triangles: Uint32Array }

/** Rotation (row-major 3 x 3, orthonormal, determinant +1 or -1 for a mirrored part), then shift by `at`. */
export type Pose = {
  readonly rotation: readonly [number, number, number, number, number, number, number, number, number]
  readonly at: Vec3
}

/** A solid described in the spec; sizes in mm. Built by the mesh kernel into a `Mesh`. */
export type Shape =
  /** A block from the origin to `sizeMm`. */
  | { readonly kind: "box"; readonly sizeMm: Vec3; readonly holes: readonly ShapeHole[] }
  /** A plate lies in x, y from the origin, its thickness goes up along z; its four upright edges are rounded by `cornerMm`. */
  | { readonly kind: "plate"; readonly sizeMm: Vec3; readonly cornerMm: number; readonly holes: readonly ShapeHole[] }
  /** Stands on the origin along z; a bore of 0 makes it solid. */
  | { readonly kind: "cylinder"; readonly diameterMm: number; readonly heightMm: number; readonly boreMm: number }
  /** Its axis runs along x, its middle is the origin; a wall of 0 makes it solid. */
  | { readonly kind: "tube"; readonly profile: TubeProfile; readonly lengthMm: number; readonly wallMm: number }
  /** A block from the origin to `sizeMm`, the tube cut into its underside: along x, in the middle of y, its top at z = `depthMm`. */
  | {
      readonly kind: "saddle"
      readonly sizeMm: Vec3
      readonly seat: TubeProfile
      /** How deep the tube sits in the block. */
      readonly depthMm: number
      readonly holes: readonly ShapeHole[]
    }

/**
 * A round hole or a rectangular opening through a shape or into it. `at` is the middle of its mouth, `along` points into
 * the material. The first size of an opening lies along x (along y when `along` is x), the second along y (z unless `along` is z).
 */
export type ShapeHole = {
  readonly at: Vec3
  readonly along: Vec3
  readonly diameterMm?: number
  readonly sizeMm?: readonly [number, number]
  /** 0 means right through. */
  readonly depthMm: number
}

export type TubeProfile =
  | { readonly kind: "round"; readonly diameterMm: number }
  | { readonly kind: "square"; readonly widthMm: number; readonly heightMm: number; readonly cornerMm: number }

/** Cross-section of an opening, or of a connector that must pass one. An obround's ends are half circles. */
export type Outline =
  | { readonly kind: "rectangle"; readonly widthMm: number; readonly heightMm: number; readonly cornerMm: number }
  | { readonly kind: "circle"; readonly diameterMm: number }
  | { readonly kind: "obround"; readonly widthMm: number; readonly heightMm: number }

/** A round hole found in a mesh. `at` is the centre of its mouth, `along` points into the material. */
export type RoundHole = {
  readonly diameterMm: number
  readonly at: Vec3
  readonly along: Vec3
  /** Length of the cylindrical wall. */
  readonly depthMm: number
  readonly through: boolean
}

/**
 * The mesh kernel's operations; loaded once by `loadKernel()` and passed in, so that all after it is synchronous.
 * Every method throws only on a fault of ours; meshes that are not closed give `undefined`.
 */
export type Kernel = {
  readonly make: (shape: Shape) => Mesh
  readonly union: (meshes: readonly Mesh[]) => Mesh | undefined
  readonly subtract: (from: Mesh, tools: readonly Mesh[]) => Mesh | undefined
  readonly overlap: (one: Mesh, other: Mesh) => { readonly volumeMm3: number; readonly mesh: Mesh } | undefined
  readonly volumeMm3: (mesh: Mesh) => number | undefined
}
