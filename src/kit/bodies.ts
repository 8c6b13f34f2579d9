/** From models and shapes to meshes: read or made once, kept by the hash of their content. */

import type { MeshProblem } from "../solids/index.ts"
import { boundsOf, guessUnit, readStl, sizeOf, splitShells } from "../solids/index.ts"
import type { Mesh, Shape } from "../solids/types.ts"
import type { BodySpec } from "../spec/types.ts"
import { mm } from "../units/print.ts"
import { hashMesh } from "./content-hash.ts"
import { called, type Desk, placeOf, report } from "./desk.ts"
import { findImpossibleSizes, findMissingHoles } from "./shape-faults.ts"

/** Meshes of one call, by the hash of their content. */
export type Bodies = {
  readonly meshes: Map<string, Mesh>
  /** Keys of meshes by file and unit, or by shape; undefined for what could not be had and was reported. */
  readonly keys: Map<string, string | undefined>
}

const mmPerUnit = { mm: 1, cm: 10, m: 1000, inch: 25.4 } as const

const idOfProblem: Readonly<Record<MeshProblem["kind"], string>> = {
  unreadable: "model-unreadable",
  "not-closed": "model-not-closed",
  "absurd-size": "model-size-absurd",
  turned: "model-inside-out",
}

/** Gives the key of the mesh of a body, reading or making it; undefined when that cannot be, which is then reported once. */
export function keyOfBody(desk: Desk, bodies: Bodies, body: BodySpec): string | undefined {
  const source = body.kind === "model" ? `model ${body.unit} ${body.file}` : `shape ${JSON.stringify(body.shape)}`
  if (bodies.keys.has(source)) return bodies.keys.get(source)
  const mesh = body.kind === "model" ? readBody(desk, body) : makeBody(desk, body.shape, body.path)
  const key = mesh === undefined ? undefined : keepMesh(bodies, mesh)
  bodies.keys.set(source, key)
  return key
}

/** Keeps a mesh and gives its key. */
export function keepMesh(bodies: Bodies, mesh: Mesh): string {
  const key = hashMesh(mesh)
  if (!bodies.meshes.has(key)) bodies.meshes.set(key, mesh)
  return key
}

/** The separate solids of a mesh from left to right, then front to back, then upward, whatever their order in the file. */
export function shellsInOrder(mesh: Mesh): readonly Mesh[] {
  const middles = splitShells(mesh).map((shell) => {
    const bounds = boundsOf(shell)
    return { shell, middle: [0, 1, 2].map((axis) => ((bounds?.min[axis] ?? 0) + (bounds?.max[axis] ?? 0)) / 2) }
  })
  const apart = (one: number | undefined, other: number | undefined): number => {
    const difference = (one ?? 0) - (other ?? 0)
    return Math.abs(difference) < 0.01 ? 0 : difference
  }
  return middles
    .sort(
      ({ middle: one }, { middle: other }) =>
        apart(one[0], other[0]) || apart(one[1], other[1]) || apart(one[2], other[2]),
    )
    .map(({ shell }) => shell)
}

function readBody(desk: Desk, body: Extract<BodySpec, { readonly kind: "model" }>): Mesh | undefined {
  const where = placeOf(desk, body.path)
  const file = desk.readModel(body.file)
  if ("problem" in file) {
    const { id = "model-not-found", message, why, fix } = file.problem
    const more = { ...(why === undefined ? {} : { why }), ...(fix === undefined ? {} : { fix }) }
    report(desk, id, "error", { message, where, ...more })
    return undefined
  }
  const read = readStl(file.bytes, body.file, mmPerUnit[body.unit])
  if ("problem" in read) {
    reportProblem(desk, "error", read.problem, body.path)
    return undefined
  }
  for (const remark of read.remarks) reportProblem(desk, "note", remark, body.path)
  const bounds = boundsOf(read.mesh)
  const largestMm = bounds === undefined ? 0 : Math.max(...sizeOf(bounds))
  const guess = guessUnit(largestMm)
  if (body.unit === "mm" && guess !== "mm") {
    const asDrawnMm = largestMm * mmPerUnit[guess]
    report(desk, "model-unit-doubtful", "warning", {
      message: `\`${body.file}\` is ${mm(largestMm)} long; drawn in ${guess} it would be ${mm(asDrawnMm)}`,
      where,
      why: "an STL file does not tell its unit; millimetres are taken unless the spec says otherwise",
      fix: `set \`unit: ${guess}\` for it, or accept this with a reason`,
    })
  }
  return read.mesh
}

function reportProblem(desk: Desk, severity: "error" | "note", problem: MeshProblem, path: string): void {
  const { kind, message, why, fix, pointMm } = problem
  report(desk, idOfProblem[kind], severity, {
    message,
    where: placeOf(desk, path),
    ...(why === undefined ? {} : { why }),
    ...(fix === undefined ? {} : { fix }),
    ...(pointMm === undefined ? {} : { scene: { subjects: [path.split("/")[1] ?? path], pointMm } }),
  })
}

function makeBody(desk: Desk, shape: Shape, path: string): Mesh | undefined {
  const mesh = desk.kernel.make(shape)
  const faults = findImpossibleSizes(shape)
  if (mesh.triangles.length > 0) {
    for (const { id, severity, field, told, why, fix } of [...faults, ...findMissingHoles(shape, mesh)]) {
      const where = placeOf(desk, path, ...field)
      const owner = path.split("/").slice(0, -1).join("/")
      report(desk, id, severity, { message: `${called(owner)}: ${told}`, where, why, fix })
    }
    return mesh
  }
  report(desk, "shape-leaves-nothing", "error", {
    message: `${called(path)} leaves no solid`,
    where: placeOf(desk, path),
    why: "its holes or its seat take all of it away, or one of its sizes is 0",
    fix: "make the holes smaller than the shape",
  })
  return undefined
}
