/** All names of one spec by what they name, and the finding for a name that nothing has. */
import { nearNames } from "../findings/near.ts"
import type { Place } from "../findings/types.ts"
import { oneOfWords, quote } from "../spec/tell.ts"
import type { PartSpec, Spec } from "../spec/types.ts"
import { called, type Desk, report, reportUnknownName } from "./desk.ts"

export type NameKind =
  | "unit"
  | "frame"
  | "part"
  | "assembly"
  | "instance"
  | "joint"
  | "own-joint"
  | "bore"
  | "cable"
  | "end"
  | "socket"
  | "passage"
  | "tie"
  | "pad"
  | "bag"
  | "tool"
  | "consumable"
  | "step"

/** For each kind the names that may be written, each with the id that stands in the kit. */
export type Names = Readonly<Record<NameKind, ReadonlyMap<string, string>>>

/** A name that was found. */
export type Named = { readonly kind: NameKind; readonly id: string }

/** Kinds in words, with their article. */
const kindWords: Readonly<Record<NameKind, string>> = {
  unit: "a unit",
  frame: "a frame",
  part: "a part",
  assembly: "an assembly",
  instance: "a copy of a part",
  joint: "a joint",
  "own-joint": "screws of a unit",
  bore: "a bore",
  cable: "a cable",
  end: "an end of a cable",
  socket: "a socket",
  passage: "a passage",
  tie: "a tie",
  pad: "a pad",
  bag: "a bag",
  tool: "a tool",
  consumable: "a consumable",
  step: "a step",
}

/** Gathers the names of a spec. Pieces of a unit go by `lid` and by `unit.lid`; copies by `saddle.front`. */
export function gatherNames(spec: Spec): Names {
  const units = spec.hosts.filter((host) => host.kind === "unit")
  const frames = spec.hosts.filter((host) => host.kind === "frame")
  const pieces = units.flatMap((unit) => unit.pieces.map((piece) => ({ piece, unit: unit.id })))
  const parts: readonly (readonly [PartSpec, readonly string[]])[] = [
    ...spec.parts.map((part) => [part, [part.id]] as const),
    ...pieces.map(({ piece, unit }) => [piece, [piece.id, `${unit}.${piece.id}`]] as const),
  ]
  const own = (ids: readonly { readonly id: string }[]): Map<string, string> => new Map(ids.map(({ id }) => [id, id]))
  const dotted = (owner: string, ids: readonly { readonly id: string }[]): readonly (readonly [string, string])[] =>
    ids.map(({ id }) => [`${owner}.${id}`, `${owner}.${id}`])
  return {
    unit: own(units),
    frame: own(frames),
    part: new Map(parts.flatMap(([part, written]) => written.map((name) => [name, part.id]))),
    instance: new Map([
      ...parts.flatMap(([part, written]) => written.flatMap((name) => instanceNames(part, name))),
      ...[...units, ...frames].map(({ id }) => [id, id] as const),
    ]),
    assembly: own(spec.assemblies),
    joint: own(spec.joints),
    "own-joint": new Map(units.flatMap((unit) => dotted(unit.id, unit.screwedIn))),
    bore: new Map([
      ...units.flatMap((unit) => dotted(unit.id, unit.bores)),
      ...parts.flatMap(([part, written]) =>
        part.bores.flatMap((bore) => written.map((name) => [`${name}.${bore.id}`, `${part.id}.${bore.id}`] as const)),
      ),
    ]),
    cable: own(spec.cables),
    end: new Map(spec.cables.flatMap((cable) => dotted(cable.id, cable.ends))),
    socket: new Map(units.flatMap((unit) => dotted(unit.id, unit.sockets))),
    passage: own(spec.passages),
    tie: own(spec.ties),
    pad: own(spec.pads),
    bag: own(spec.bags),
    tool: own(spec.tools),
    consumable: own(spec.consumables),
    step: own(spec.steps),
  }
}

/** Id of a copy: the part's own when there is one copy, else with the copy's name or its number from 1 behind a dot. */
export function instanceId(part: PartSpec, index: number): string {
  if (part.copies.length === 1) return part.id
  return `${part.id}.${part.copies[index]?.name ?? index + 1}`
}

function instanceNames(part: PartSpec, name: string): readonly (readonly [string, string])[] {
  return part.copies.flatMap((copy, index) => {
    const id = instanceId(part, index)
    const dotted = `${name}.${copy.name ?? index + 1}`
    return part.copies.length === 1
      ? [
          [name, id],
          [dotted, id],
        ]
      : [[dotted, id]]
  })
}

/** Looks a name up in several kinds, in their order. */
export function lookUp(names: Names, kinds: readonly NameKind[], name: string): Named | undefined {
  for (const kind of kinds) {
    const id = names[kind].get(name)
    if (id !== undefined) return { kind, id }
  }
  return undefined
}

/** The kinds of different things that a name may mean at a place; a part and its only copy are one thing. */
function kindsOf(names: Names, kinds: readonly NameKind[], name: string): readonly NameKind[] {
  return kinds.filter((kind) => kind !== "instance" && names[kind].has(name))
}

/** Reports a name that could mean things of several kinds; the first kind is taken, and a rename makes it sure. */
export function reportAmbiguous(
  desk: Desk & { readonly names: Names },
  kinds: readonly NameKind[],
  name: string,
  owner: string,
  where: Place,
): void {
  const meanings = kindsOf(desk.names, kinds, name)
  const [first] = meanings
  if (first === undefined || meanings.length < 2) return
  report(desk, "name-ambiguous", "warning", {
    message: `${owner} names ${quote(name)}, which is ${meanings.map((kind) => kindWords[kind]).join(" and ")}`,
    where,
    why: `${kindWords[first]} is taken to be meant`,
    fix: "rename one of them",
    subjects: [name],
  })
}

/** Where things of a kind stand in the spec when their name has no dot. */
const plainPaths: Readonly<Partial<Record<NameKind, string>>> = {
  unit: "host",
  frame: "host",
  part: "parts",
  assembly: "assemblies",
  instance: "parts",
  joint: "joints",
  cable: "cables",
  end: "cables",
  passage: "passages",
  tie: "ties",
  pad: "pads",
  bag: "bags",
  tool: "tools",
  consumable: "consumables",
  step: "steps",
}

/** Where they stand when it has one: collection of the owner, then the collection inside it. */
const dottedPaths: Readonly<Partial<Record<NameKind, readonly (readonly [string, string])[]>>> = {
  part: [["host", "pieces"]],
  instance: [["parts", "copies"]],
  "own-joint": [["host", "screwed-in"]],
  bore: [
    ["host", "bores"],
    ["parts", "bores"],
  ],
  end: [["cables", "ends"]],
  socket: [["host", "sockets"]],
}

/** Kinds that one collection of the spec holds. */
const heldBy: Readonly<Record<string, readonly NameKind[]>> = {
  host: ["unit", "frame"],
  parts: ["part"],
  cables: ["cable"],
}

/**
 * True when the spec has a place for a thing of this name but not the thing: it was faulty, which was told where it
 * stands, so references to it say nothing more. The same goes for what belongs to such a thing.
 */
export function isLeftOut(spec: Spec, names: Names, kinds: readonly NameKind[], name: string): boolean {
  const [owner = "", inner] = name.split(".")
  const isWritten = (path: string): boolean => Object.hasOwn(spec.places, path)
  const isMissing = (collection: string, id: string, kind: NameKind): boolean =>
    isWritten(`${collection}/${id}`) && lookUp(names, heldBy[collection] ?? [kind], id) === undefined
  // A collection whose own key is at fault was left out as a whole.
  const isLost = (kind: NameKind): boolean => {
    const collection = plainPaths[kind] ?? dottedPaths[kind]?.[0]?.[0] ?? ""
    const isMeant = isWritten(collection) || spec.told.includes(collection)
    return isMeant && (heldBy[collection] ?? [kind]).every((held) => names[held].size === 0)
  }
  return kinds.some((kind) => {
    if (isLost(kind)) return true
    if (inner === undefined) return isMissing(plainPaths[kind] ?? "", name, kind)
    return (dottedPaths[kind] ?? []).some(
      ([collection, within]) =>
        isMissing(collection, owner, kind) ||
        (isWritten(`${collection}/${owner}/${within}/${inner}`) && !names[kind].has(name)),
    )
  })
}

/** Looks a name up and reports it when nothing of these kinds has it. `path` is the thing that names it. */
export function lookUpOrReport(
  desk: Desk & { readonly names: Names },
  kinds: readonly NameKind[],
  name: string,
  path: string,
  where: Place,
): Named | undefined {
  const found = lookUp(desk.names, kinds, name)
  if (found === undefined) reportUnknown(desk, kinds, name, called(path), where)
  return found
}

/** Reports a name that nothing has: near names, what else goes by that name, or what there is. */
function reportUnknown(
  desk: Desk & { readonly names: Names },
  kinds: readonly NameKind[],
  name: string,
  owner: string,
  where: Place,
): void {
  if (isLeftOut(desk.spec, desk.names, kinds, name)) {
    desk.told.add(where.path.join("/"))
    return
  }
  const wanted = kindsInWords(kinds)
  const others = Object.keys(kindWords) as NameKind[] // Keys of a record over exactly these kinds.
  const elsewhere = lookUp(
    desk.names,
    others.filter((kind) => !kinds.includes(kind)),
    name,
  )
  const known = knownNames(desk.names, kinds)
  const near = nearNames(name, known)
  const is =
    elsewhere === undefined ? "which nothing is called" : `which is ${kindWords[elsewhere.kind]}, not ${wanted}`
  reportUnknownName(desk, "unknown-name", unknownKey(desk.names, kinds, name), {
    message: `${owner} names ${quote(name)}, ${is}`,
    where,
    why: `this place takes ${wanted}${known.length === 0 ? ", and there is none" : ""}`,
    ...fixFor(near, known),
    meant: meantPaths(desk, kinds, name),
  })
}

/**
 * What is unknown about a name: its owner before the dot when nothing is called that, else the whole. A name that
 * something of another kind has is unknown only among its own kinds.
 */
export function unknownKey(names: Names, kinds: readonly NameKind[], name: string): string {
  const all = Object.keys(names) as NameKind[] // Keys of a record over exactly these kinds.
  if (lookUp(names, all, name) !== undefined) return `${kinds[0]} ${name}`
  const [owner = name] = name.split(".")
  return lookUp(names, all, owner) === undefined ? owner : name
}

/**
 * Paths of the things that may have been meant by an unknown name: near ones of the wanted kinds (all of them, when
 * there are only a few and none is near), and the owners that are near the word before the dot.
 */
export function meantPaths(
  { names }: { readonly names: Names },
  kinds: readonly NameKind[],
  name: string,
): readonly string[] {
  const [owner = name, inner] = name.split(".")
  const owners: readonly NameKind[] = inner === undefined ? [] : ["cable", "unit", "part"]
  const known = knownNames(names, kinds)
  const near = nearNames(name, known)
  const meant = near.length === 0 && known.length <= 4 ? known : near
  const paths = (some: readonly NameKind[], ids: readonly string[]): readonly string[] =>
    some.flatMap((kind) => ids.filter((id) => names[kind].has(id)).flatMap((id) => pathsOf(kind, id)))
  return [...paths(kinds, meant), ...paths(owners, nearNames(owner, knownNames(names, owners)))]
}

function pathsOf(kind: NameKind, name: string): readonly string[] {
  const [owner = "", inner] = name.split(".")
  if (inner === undefined) return plainPaths[kind] === undefined ? [] : [`${plainPaths[kind]}/${name}`]
  return (dottedPaths[kind] ?? []).map(([collection, within]) => `${collection}/${owner}/${within}/${inner}`)
}

/** All names of some kinds, each thing once, for offering near ones. */
export function knownNames(names: Names, kinds: readonly NameKind[]): readonly string[] {
  return [...new Set(kinds.flatMap((kind) => [...names[kind].values()]))]
}

/** `a part, a unit or a copy of a part` */
export function kindsInWords(kinds: readonly NameKind[]): string {
  const words = kinds.filter((kind) => kind !== "instance" || !kinds.includes("part")).map((kind) => kindWords[kind])
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} or ${words.at(-1)}`
}

/** Advice for an unknown name: the near names, else all known ones when they are few; nothing when there is none. */
export function fixFor(near: readonly string[], known: readonly string[]): { readonly fix?: string } {
  if (near.length > 0) return { fix: `write ${oneOfWords(near)}` }
  if (known.length === 0) return {}
  return {
    fix: known.length <= 6 ? `write ${oneOfWords(known)}` : "write the name of one that is there, or take it out",
  }
}
