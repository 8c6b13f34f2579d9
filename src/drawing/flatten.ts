/** All pieces of a scene projected into one set of flat arrays: the input of item buffer and line engine. */
import type { Pose } from "../solids/types.ts"
import { edgeKind, type PreparedMesh } from "./prepare-mesh.ts"
import type { View } from "./projection.ts"

/** Faces nearer to edge-on than this count as turned away. */
const edgeOn = 2e-3

/** One mesh in its place. Several pieces may carry the same `id`. */
export type Piece = {
  readonly id: string
  readonly mesh: PreparedMesh
  readonly pose: Pose
  /** `phantom`: seen through; it hides nothing, and only where its surface turns away is an edge. */
  readonly role?: string
}

export type FlatScene = {
  readonly pieceCount: number
  /** Per vertex: paper coordinates in mm of the thing, y downward; depth grows towards the eye. */
  readonly x: Float64Array
  readonly y: Float64Array
  readonly depth: Float64Array
  /** Three vertices a triangle. */
  readonly triangles: Uint32Array
  readonly trianglePiece: Uint32Array
  /** 1 when the triangle can hide something: it faces the eye, or its mesh is open. */
  readonly hides: Uint8Array
  /** Candidate edges: open edges, creases and contours. Two vertices each. */
  readonly edges: Uint32Array
  readonly edgePiece: Uint32Array
  /** The edge's own triangles, -1 for none. */
  readonly edgeFaces: Int32Array
  /** 1 where the surface ends or turns away from the eye: only there can the visibility of what is behind change. */
  readonly isContour: Uint8Array
  /** 1 when both faces turn away on a closed mesh: certainly hidden by the piece itself. */
  readonly isBehind: Uint8Array
}

/** Projects pieces and picks the edges worth drawing; with `faces` alone, no edges are looked for. */
export function flattenScene(pieces: readonly Piece[], view: View, what: "all" | "faces" = "all"): FlatScene {
  const vertexCount = pieces.reduce((sum, { mesh }) => sum + mesh.positions.length / 3, 0)
  const triangleCount = pieces.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0)
  const edgeLimit = what === "faces" ? 0 : pieces.reduce((sum, { mesh }) => sum + mesh.edges.length / 2, 0)
  const x = new Float64Array(vertexCount)
  const y = new Float64Array(vertexCount)
  const depth = new Float64Array(vertexCount)
  const triangles = new Uint32Array(3 * triangleCount)
  const trianglePiece = new Uint32Array(triangleCount)
  const hides = new Uint8Array(triangleCount)
  const edges = new Uint32Array(2 * edgeLimit)
  const edgePiece = new Uint32Array(edgeLimit)
  const edgeFaces = new Int32Array(2 * edgeLimit)
  const isContour = new Uint8Array(edgeLimit)
  const isBehind = new Uint8Array(edgeLimit)
  let vertexBase = 0
  let triangleBase = 0
  let edgeCount = 0
  pieces.forEach(({ mesh, pose, role }, pieceIndex) => {
    const isPhantom = role === "phantom"
    projectVertices(mesh, pose, view, vertexBase, x, y, depth)
    const isFront = findFacing(mesh, pose, view)
    for (let index = 0; index < mesh.triangles.length; index += 1) {
      triangles[3 * triangleBase + index] = (mesh.triangles[index] ?? 0) + vertexBase
    }
    for (let index = 0; index < isFront.length; index += 1) {
      trianglePiece[triangleBase + index] = pieceIndex
      hides[triangleBase + index] = isPhantom ? 0 : mesh.isClosed ? (isFront[index] ?? 0) : 1
    }
    for (let edge = 0; edge < mesh.kinds.length && what === "all"; edge += 1) {
      const one = mesh.faces[2 * edge] ?? 0
      const other = mesh.faces[2 * edge + 1] ?? -1
      const kind = mesh.kinds[edge]
      const turns = other < 0 || isFront[one] !== isFront[other]
      if (!turns && (kind === edgeKind.smooth || isPhantom)) continue
      edges[2 * edgeCount] = (mesh.edges[2 * edge] ?? 0) + vertexBase
      edges[2 * edgeCount + 1] = (mesh.edges[2 * edge + 1] ?? 0) + vertexBase
      edgePiece[edgeCount] = pieceIndex
      edgeFaces[2 * edgeCount] = one + triangleBase
      edgeFaces[2 * edgeCount + 1] = other < 0 ? -1 : other + triangleBase
      isContour[edgeCount] = turns && !isPhantom ? 1 : 0
      isBehind[edgeCount] = mesh.isClosed && isFront[one] === 0 && !turns ? 1 : 0
      edgeCount += 1
    }
    vertexBase += mesh.positions.length / 3
    triangleBase += mesh.triangles.length / 3
  })
  return {
    pieceCount: pieces.length,
    x,
    y,
    depth,
    triangles,
    trianglePiece,
    hides,
    edges: edges.subarray(0, 2 * edgeCount),
    edgePiece: edgePiece.subarray(0, edgeCount),
    edgeFaces: edgeFaces.subarray(0, 2 * edgeCount),
    isContour: isContour.subarray(0, edgeCount),
    isBehind: isBehind.subarray(0, edgeCount),
  }
}

function projectVertices(
  mesh: PreparedMesh,
  pose: Pose,
  view: View,
  base: number,
  x: Float64Array,
  y: Float64Array,
  depth: Float64Array,
): void {
  const [rx, ry, rz, r0] = rowOf(view.right, pose)
  const [ux, uy, uz, u0] = rowOf(view.up, pose)
  const [dx, dy, dz, d0] = rowOf(view.from, pose)
  const { positions } = mesh
  for (let vertex = 0; vertex < positions.length / 3; vertex += 1) {
    const px = positions[3 * vertex] ?? 0
    const py = positions[3 * vertex + 1] ?? 0
    const pz = positions[3 * vertex + 2] ?? 0
    x[base + vertex] = rx * px + ry * py + rz * pz + r0
    y[base + vertex] = -(ux * px + uy * py + uz * pz + u0)
    depth[base + vertex] = dx * px + dy * py + dz * pz + d0
  }
}

/** Which triangles face the eye. */
function findFacing(mesh: PreparedMesh, pose: Pose, view: View): Uint8Array {
  const [dx, dy, dz] = rowOf(view.from, pose)
  const isFront = new Uint8Array(mesh.triangles.length / 3)
  for (let index = 0; index < isFront.length; index += 1) {
    const facing =
      dx * (mesh.normals[3 * index] ?? 0) +
      dy * (mesh.normals[3 * index + 1] ?? 0) +
      dz * (mesh.normals[3 * index + 2] ?? 0)
    // Also right for a mirrored pose: an outward normal maps with an orthogonal matrix itself.
    isFront[index] = facing > edgeOn ? 1 : 0
  }
  return isFront
}

/** Row of the view times the pose: coefficients on mesh x, y, z and the constant. */
function rowOf(direction: readonly [number, number, number], pose: Pose): readonly [number, number, number, number] {
  const [a, b, c, d, e, f, g, h, i] = pose.rotation
  const [x, y, z] = direction
  return [
    x * a + y * d + z * g,
    x * b + y * e + z * h,
    x * c + y * f + z * i,
    x * pose.at[0] + y * pose.at[1] + z * pose.at[2],
  ]
}
