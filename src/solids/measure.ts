/** Facts about a model for the maker: size, guessed unit, shells and holes, as YAML to paste. */
import { trimmed } from "../units/print.ts"
import { areaMm2, type Bounds, boundsOf, signedVolumeMm3, sizeOf } from "./bounds.ts"
import { findRoundHoles } from "./round-holes.ts"
import { splitShells } from "./topology.ts"
import type { Mesh, RoundHole, Vec3 } from "./types.ts"

/** What `measureMesh` finds. */
export type MeshFacts = {
  readonly bounds: Bounds
  readonly sizeMm: Vec3
  readonly volumeMm3: number
  readonly areaMm2: number
  readonly triangleCount: number
  /** Separate solids. */
  readonly shellCount: number
  readonly holes: readonly RoundHole[]
  readonly unitGuess: UnitGuess
}

/** Unit in which the numbers of a file make sense, by its largest size. */
export type UnitGuess = "mm" | "inch" | "m"

/**
 * Guesses the unit of a file from its largest size read as millimetres: below 0.6 it is taken for metres (a piece of
 * 600 mm at most), below 5 for inches (up to 127 mm), else for millimetres. Common practice, no source; small pieces
 * such as a spacer of 4 mm are guessed wrong, so this is for a remark and never changes a size.
 */
export function guessUnit(largestMm: number): UnitGuess {
  if (largestMm < 0.6) return "m"
  return largestMm < 5 ? "inch" : "mm"
}

/** Measures a closed mesh. Throws for a mesh without triangles, which no reader gives. */
export function measureMesh(mesh: Mesh): MeshFacts {
  const bounds = boundsOf(mesh)
  if (bounds === undefined) throw new Error("a mesh without triangles cannot be measured")
  const sizeMm = sizeOf(bounds)
  return {
    bounds,
    sizeMm,
    volumeMm3: signedVolumeMm3(mesh),
    areaMm2: areaMm2(mesh),
    triangleCount: mesh.triangles.length / 3,
    shellCount: splitShells(mesh).length,
    holes: findRoundHoles(mesh),
    unitGuess: guessUnit(Math.max(...sizeMm)),
  }
}

/**
 * Renders facts as YAML: lines to read as comments, then each diameter with its places in the form that `holes:` of a
 * joint or bore takes. `fileName` is the name that the spec would use for the model.
 */
export function renderMeasure(facts: MeshFacts, fileName: string): string {
  const { sizeMm, bounds, holes } = facts
  const lines = [
    `# ${fileName}`,
    `# size ${sizeMm.map(shown).join(" x ")} mm, from (${point(bounds.min)}) to (${point(bounds.max)})`,
    `# volume ${shown(facts.volumeMm3 / 1000)} cm3, surface ${shown(facts.areaMm2 / 100)} cm2`,
    `# ${facts.triangleCount} triangles, ${facts.shellCount} separate ${facts.shellCount === 1 ? "solid" : "solids"}`,
  ]
  if (facts.unitGuess !== "mm") {
    lines.push(`# very small for millimetres: if it was drawn in ${facts.unitGuess}, write`)
    lines.push(`# model: { file: ${fileName}, unit: ${facts.unitGuess} }`)
  }
  if (holes.length === 0) lines.push("# no round hole found")
  for (const group of groupByDiameter(holes)) {
    const [first] = group
    if (first === undefined) continue
    lines.push("", `# ${group.length} round ${group.length === 1 ? "hole" : "holes"} of ${shown(first.diameterMm)} mm`)
    lines.push("holes:")
    for (const { at, along, depthMm, through } of group) {
      const told = through ? `through ${shown(depthMm)} mm` : `${shown(depthMm)} mm deep`
      lines.push(`  - { at: [${point(at)}], along: ${directionWord(along)} } # ${told}`)
    }
  }
  return `${lines.join("\n")}\n`
}

function groupByDiameter(holes: readonly RoundHole[]): readonly (readonly RoundHole[])[] {
  const groups = new Map<string, RoundHole[]>()
  for (const hole of holes) {
    const key = shown(hole.diameterMm)
    const group = groups.get(key)
    if (group === undefined) groups.set(key, [hole])
    else group.push(hole)
  }
  return [...groups.values()]
}

const directionWords: readonly (readonly [string, Vec3])[] = [
  ["up", [0, 0, 1]],
  ["down", [0, 0, -1]],
  ["right", [1, 0, 0]],
  ["left", [-1, 0, 0]],
  ["back", [0, 1, 0]],
  ["front", [0, -1, 0]],
]

function directionWord(direction: Vec3): string {
  const found = directionWords.find(([, plain]) =>
    plain.every((value, axis) => Math.abs(value - (direction[axis] ?? 0)) < 1e-6),
  )
  return found?.[0] ?? `[${direction.map((value) => trimmed(value, 4)).join(", ")}]`
}

function point(vector: Vec3): string {
  return vector.map(shown).join(", ")
}

function shown(value: number): string {
  return trimmed(value + 0, 2)
}
