/** What every room of this folder works with while one spec is resolved: the spec, the tools, and where findings go. */
import { finding } from "../findings/order.ts"
import { placeAt } from "../findings/places.ts"
import type { Finding, Place, Report, Severity } from "../findings/types.ts"
import type { Kernel, RoundHole } from "../solids/types.ts"
import { nameOf } from "../spec/names.ts"
import type { PartSpec, Spec } from "../spec/types.ts"

/** Gives the bytes of a model file of the kit's folder, or says why it cannot: not there, outside the folder, too large. */
export type ReadModel = (file: string) =>
  | { readonly bytes: Uint8Array }
  | {
      readonly problem: {
        /** Rule under which it is reported; `model-not-found` without one. */
        readonly id?: string | undefined
        readonly message: string
        readonly why?: string | undefined
        readonly fix?: string | undefined
      }
    }

/** Tools that resolving needs from outside. */
export type Tools = {
  readonly kernel: Kernel
  readonly readModel: ReadModel
  /** Round holes by the hash of their mesh, for who resolves several specs with the same meshes: each is measured once. */
  readonly found?: Map<string, readonly RoundHole[]>
}

export type Desk = Tools & {
  readonly spec: Spec
  readonly findings: Finding[]
  /** Names that nothing has, each with the index of its one finding. */
  readonly unknown: Map<string, number>
  /** Paths of what is at fault beside the findings: further places of an unknown name, and things it may have meant. */
  readonly told: Set<string>
}

/** Takes a finding; a message longer than a line is cut, since names in it may have any length. */
export function report(desk: Desk, id: string, severity: Severity, words: Report): void {
  const message = words.message.length <= 100 ? words.message : `${words.message.slice(0, 99)}…`
  desk.findings.push(finding(id, severity, { ...words, message }))
}

/**
 * Takes the finding about a name that nothing has. The same name told again, most likely because the thing itself is
 * misspelt, adds its place to the first finding.
 */
export function reportUnknownName(
  desk: Desk,
  id: string,
  name: string,
  words: Report & { readonly meant: readonly string[] },
): void {
  const { meant, ...told } = words
  for (const path of [...meant, words.where.path.join("/")]) desk.told.add(path)
  const index = desk.unknown.get(name)
  const first = index === undefined ? undefined : desk.findings[index]
  if (index === undefined || first === undefined) {
    desk.unknown.set(name, desk.findings.length)
    report(desk, id, "error", told)
    return
  }
  const related = [...first.related, { message: words.message, where: words.where }]
  desk.findings[index] = { ...first, related }
}

/** Gives the place of a value of the spec. */
export function placeOf(desk: Desk, path: string, ...names: readonly string[]): Place {
  return placeAt(desk.spec.places, path, ...names)
}

/** Parts of the box, then the own pieces of the units. */
export function allParts(spec: Spec): readonly PartSpec[] {
  return [...spec.parts, ...spec.hosts.flatMap((host) => (host.kind === "unit" ? host.pieces : []))]
}

/** Calls the thing at a path by its name: `` joint `foot` ``. */
export function called(path: string): string {
  return nameOf(path.split("/").filter((name) => name !== ""))
}

/** Words of an id, for a thing without a name: `long-plate` is `long plate`. */
export function wordsOf(id: string): string {
  return (id.split(".").at(-1) ?? id).replaceAll("-", " ")
}
