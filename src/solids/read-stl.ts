/** Reads STL files, binary and text, into closed meshes, or says in our own words why that cannot be. */
import { mm, trimmed } from "../units/print.ts"
import { areaMm2, boundsOf, signedVolumeMm3, sizeOf, vertexAt } from "./bounds.ts"
import { orientOutward } from "./orient.ts"
import { readTextCorners } from "./stl-text.ts"
import { pairEdges } from "./topology.ts"
import type { Mesh, Vec3 } from "./types.ts"
import { weldCorners } from "./weld.ts"

/** Why a model cannot be used, or what was put right in it. `message` starts with the file's name. */
export type MeshProblem = {
  readonly kind: "unreadable" | "not-closed" | "absurd-size" | "turned"
  readonly message: string
  readonly why: string | undefined
  readonly fix: string | undefined
  /** A point near the fault. */
  readonly pointMm: Vec3 | undefined
}

/** A mesh with remarks about what was put right, or the problem that makes the file useless. */
export type ReadModel =
  | { readonly mesh: Mesh; readonly remarks: readonly MeshProblem[] }
  | { readonly problem: MeshProblem }

const headerBytes = 84
const triangleBytes = 50

/** Largest and smallest size that is taken for a piece of a kit. */
const largestMm = 100_000
const smallestMm = 0.05
/** What is thinner than any film is a surface; a file in metres has small numbers, so its largest size counts as well. */
const thinnestMm = 0.005

/** No corner may lie farther from the origin than this. */
const farthestMm = 1e7

/** More triangles than this are refused, since a drawing of them would be a blot. */
const mostTriangles = 5_000_000

/**
 * Reads an STL file. `name` stands in the messages; `mmPerUnit` is the length of the file's unit (25.4 for inch).
 * The corners are welded at 1e-4 mm, triangles that have no extent are dropped, the way round is put right (with a
 * remark). A file that is cut short, holds numbers that are none, is open or has edges with more than two triangles
 * gives a problem. Normals in the file are not looked at.
 */
export function readStl(bytes: Uint8Array, name: string, mmPerUnit = 1): ReadModel {
  const read = readCorners(bytes, name)
  if ("problem" in read) return read
  const { corners } = read
  for (let index = 0; index < corners.length; index += 1) {
    const value = corners[index] ?? 0
    if (!Number.isFinite(value)) {
      const triangle = Math.floor(index / 9) + 1
      return unreadable(`\`${name}\` has a corner without a number, in triangle ${triangle}`, exportAgain)
    }
    corners[index] = value * mmPerUnit
    if (Math.abs(value * mmPerUnit) > farthestMm) {
      const message = `\`${name}\` has a corner ${mm(Math.abs(value * mmPerUnit))} from its origin`
      const fix = "export it in millimetres, near its origin"
      return { problem: { kind: "absurd-size", message, why: undefined, fix, pointMm: undefined } }
    }
  }
  const { mesh } = weldCorners(corners)
  return checkMesh(mesh, name)
}

const exportAgain = "export the model again as STL"

/** Judges a welded mesh: size, edges, way round. */
function checkMesh(mesh: Mesh, name: string): ReadModel {
  const bounds = boundsOf(mesh)
  if (bounds === undefined) return unreadable(`\`${name}\` holds no triangle`, exportAgain)
  const largest = Math.max(...sizeOf(bounds))
  if (largest > largestMm || largest < smallestMm) {
    const message = `\`${name}\` is ${mm(largest)} long, a piece of a kit has ${mm(smallestMm)} to ${mm(largestMm)}`
    const fix = largest < smallestMm ? "set `unit: m` or `unit: inch` for it" : "export it in millimetres"
    return { problem: { kind: "absurd-size", message, why: undefined, fix, pointMm: undefined } }
  }
  const leastMm = Math.min(thinnestMm, 1e-4 * largest)
  if (Math.min(...sizeOf(bounds)) < leastMm) return isFlat(name, mesh)
  const { faults } = pairEdges(mesh)
  if (faults.near !== undefined) return { problem: notClosed(name, faults) }
  // A closed solid is as thick, on the average, as its volume over half its surface.
  if ((2 * Math.abs(signedVolumeMm3(mesh))) / areaMm2(mesh) < leastMm) return isFlat(name, mesh)
  const { mesh: outward, turnedCount } = orientOutward(mesh)
  if (turnedCount === 0) return { mesh, remarks: [] }
  const total = mesh.triangles.length / 3
  const remark: MeshProblem = {
    kind: "turned",
    message: `\`${name}\` has ${turnedCount} of ${total} triangles turned inside out`,
    why: "outside is where the corners of a triangle run round against the clock; they were turned for the drawings",
    fix: "export it again with normals facing outward",
    pointMm: undefined,
  }
  return { mesh: outward, remarks: [remark] }
}

function isFlat(name: string, mesh: Mesh): ReadModel {
  return {
    problem: {
      kind: "absurd-size",
      message: `\`${name}\` is a surface without thickness`,
      why: `a piece of a kit is at least ${thinnestMm} mm thick`,
      fix: "give the surface a thickness, and export it as a closed solid",
      pointMm: vertexAt(mesh, 0),
    },
  }
}

function notClosed(
  name: string,
  { openCount, crowdedCount, near }: ReturnType<typeof pairEdges>["faults"],
): MeshProblem {
  const place = near === undefined ? "" : ` near (${near.map((value) => trimmed(value, 1)).join(", ")}) mm`
  if (openCount > 0) {
    const one = openCount === 1
    return {
      kind: "not-closed",
      message: `\`${name}\` is open: ${openCount} ${one ? "edge has" : "edges have"} one triangle${place}`,
      why: "each edge of a solid lies between two triangles; without an inside there is no volume and no hidden line",
      fix: "export it as a closed solid",
      pointMm: near,
    }
  }
  const one = crowdedCount === 1
  return {
    kind: "not-closed",
    message: `\`${name}\` is folded: ${crowdedCount} ${one ? "edge has" : "edges have"} over two triangles${place}`,
    why: "two solids that touch along an edge, or a face that lies in the model twice",
    fix: "unite the solids, or leave a gap between them, and export again",
    pointMm: near,
  }
}

type Corners = { readonly corners: Float64Array } | { readonly problem: MeshProblem }

/**
 * A binary file tells its length: 84 bytes and 50 for each triangle. That is looked at first, since many binary files
 * begin with the word `solid` too.
 */
function readCorners(bytes: Uint8Array, name: string): Corners {
  if (bytes.length === 0) return unreadable(`\`${name}\` is empty`, exportAgain)
  const count =
    bytes.length >= headerBytes ? new DataView(bytes.buffer, bytes.byteOffset).getUint32(80, true) : undefined
  if (count !== undefined && bytes.length === headerBytes + count * triangleBytes) return readBinary(bytes, count, name)
  const text = readTextCorners(bytes)
  if (text !== undefined) {
    if ("corners" in text) return text
    return unreadable(`\`${name}\` cannot be read as STL text in line ${text.line}: ${text.told}`, exportAgain)
  }
  if (count === undefined) {
    return unreadable(`\`${name}\` has ${bytes.length} bytes, an STL file has at least 84`, exportAgain)
  }
  const held = Math.floor((bytes.length - headerBytes) / triangleBytes)
  const neededBytes = headerBytes + count * triangleBytes
  // Some programs append data of their own; a whole set of triangles is there all the same.
  if (held >= count && count > 0 && bytes.length - neededBytes < neededBytes) return readBinary(bytes, count, name)
  const message =
    held < count && held > 0 && count <= mostTriangles
      ? `\`${name}\` ends after ${held} of its ${count} triangles`
      : `\`${name}\` is no STL file: neither its text nor its length fit the format`
  return unreadable(message, exportAgain)
}

function readBinary(bytes: Uint8Array, count: number, name: string): Corners {
  if (count > mostTriangles) {
    const message = `\`${name}\` has ${count} triangles, at most ${mostTriangles} can be drawn`
    return unreadable(message, "export it with a coarser resolution")
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)
  const corners = new Float64Array(count * 9)
  for (let triangle = 0; triangle < count; triangle += 1) {
    // Twelve bytes of normal come before the corners.
    const start = headerBytes + triangle * triangleBytes + 12
    for (let index = 0; index < 9; index += 1) {
      corners[triangle * 9 + index] = view.getFloat32(start + index * 4, true)
    }
  }
  return { corners }
}

function unreadable(message: string, fix: string): { readonly problem: MeshProblem } {
  return { problem: { kind: "unreadable", message, why: undefined, fix, pointMm: undefined } }
}
