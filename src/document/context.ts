/** What every section of a document is made from, and the names that all of them print. */
import type { Drawings } from "../drawing/types.ts"
import type { Fastener } from "../fasteners/types.ts"
import type { BoxItem, JointFit, ToolNeed } from "../fit/types.ts"
import type { Joint, OwnJoint } from "../kit/joint-types.ts"
import type { Kit, Part, Tie } from "../kit/types.ts"
import type { Proof, Sheet } from "./types.ts"
import type { ToolKind, Words } from "./words/types.ts"

/** Proof, pictures, page and language of one document. */
export type Context = Proof & {
  readonly drawings: Drawings
  readonly sheet: Sheet
  readonly words: Words
  /** Tag of the language that the maker writes in: the first one the kit names, else English. */
  readonly makerLanguage: string
}

/** Gathers the context of a document. */
export function makeContext(proof: Proof, drawings: Drawings, sheet: Sheet, words: Words): Context {
  return { ...proof, drawings, sheet, words, makerLanguage: proof.kit.identity.languages[0] ?? "en" }
}

/** A thing's name as its author wrote it, with its item reference when it has one. */
export type Named = { readonly name: string; readonly reference: number | undefined }

/** Finds the name of anything that has an id in the kit; the id itself when nothing is called so. */
export function findName({ kit }: { readonly kit: Kit }, id: string): Named {
  const numbered = [...kit.parts, ...kit.ties, ...kit.pads, ...kit.cables, ...kit.joints].find(
    (thing) => thing.id === id,
  )
  if (numbered !== undefined) return { name: numbered.name, reference: numbered.itemReference }
  const plain = [
    ...kit.units,
    ...kit.frames,
    ...kit.sockets,
    ...kit.passages,
    ...kit.bags,
    ...kit.tools,
    ...kit.consumables,
    ...kit.cables.flatMap((cable) => cable.ends),
  ].find((thing) => thing.id === id)
  if (plain !== undefined) return { name: plain.name, reference: undefined }
  const instance = kit.instances.find((piece) => piece.id === id)
  if (instance !== undefined && instance.of !== id) return findName({ kit }, instance.of)
  return { name: id, reference: undefined }
}

/** The part of that id, or the part that the instance of that id is a copy of. */
export function findPart({ kit }: { readonly kit: Kit }, id: string): Part | undefined {
  const of = kit.instances.find((piece) => piece.id === id)?.of
  return kit.parts.find((part) => part.id === id || part.id === of)
}

/** `plate (1)`, as it stands inside a sentence. The reference never parts from the name. */
export function sayName(context: Context, id: string): string {
  const { name, reference } = findName(context, id)
  const inside = context.words.nameInSentence(name, context.makerLanguage === context.words.language)
  return withReference(inside, reference)
}

/** A name at the start of a line. Names that the maker did not write come in small letters from their ids. */
export function startLine(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** Appends an item reference: `plate (1)`. */
export function withReference(name: string, reference: number | undefined): string {
  return reference === undefined ? name : `${name}\u00a0(${reference})`
}

/** `2 × ISO 4762 - M4 x 14 - A2-70 (4)`, with washers and nuts of the joint when they are asked for. */
export function sayFasteners(context: Context, joint: Joint, count: number, withLoose = false): string {
  const { measures, list } = context.words
  const some = (fastener: Fastener, reference: number | undefined): string =>
    `${measures.times(count)}\u00a0${withReference(fastener.designation, reference)}`
  const items = [some(joint.fastener, joint.itemReference)]
  if (withLoose && joint.washer !== undefined) items.push(some(joint.washer, joint.washerReference))
  const nut = joint.bore.kind === "nut" ? joint.bore.fastener : undefined
  if (withLoose && nut !== undefined) items.push(some(nut, joint.nutReference))
  return list(items)
}

/** `2 × ISO 4762 - M4 x 8 - A2-70 (own screws)`: they have no item reference, since the box does not hold them. */
export function sayOwnScrews({ words }: Context, own: OwnJoint, count: number): string {
  return `${words.measures.times(count)}\u00a0${own.fastener.designation} (${words.steps.ownScrews})`
}

/** `4 × clamp (6)`. */
export function sayTies(context: Context, tie: Tie, count: number): string {
  return `${context.words.measures.times(count)}\u00a0${sayName(context, tie.id)}`
}

/** The computed facts of a joint; undefined when the kit has no such joint. */
export function findJointFit({ fit }: Context, joint: string): JointFit | undefined {
  return fit.joints.find((each) => each.joint === joint)
}

/** Torque of a joint as printed; undefined when none is known. */
export function sayTorque(context: Context, joint: string): string | undefined {
  const valueNm = findJointFit(context, joint)?.torque.valueNm
  return valueNm === undefined ? undefined : context.words.measures.torque(valueNm)
}

const turning: ReadonlySet<ToolNeed["kind"]> = new Set([
  "hex-key",
  "hexalobular",
  "cross-pz",
  "cross-ph",
  "slot",
  "wrench",
])

/** Names of the tools that turn the fasteners of a joint: `hex key 3 mm`; undefined when none is known. */
export function sayTools(context: Context, joint: string): string | undefined {
  const names = context.fit.tools
    .filter((tool) => turning.has(tool.kind) && tool.uses.includes(joint))
    .map((tool) => sayTool(context, tool))
  return names.length === 0 ? undefined : context.words.list(names)
}

/** Name of one tool; a tool that the maker declared keeps its own name. */
export function sayTool(context: Context, tool: ToolNeed): string {
  const { tools, measures } = context.words
  if (tool.kind === "declared") return findName(context, tool.id).name
  if (tool.kind === "torque-driver") {
    return tools.torqueDriver(tool.torqueNm === undefined ? undefined : measures.range(tool.torqueNm, measures.torque))
  }
  const kind: ToolKind = tool.kind
  return tools.name(kind, sizeOf(tool.size, measures.number))
}

/** The number of a tool size in the language's form: `2.5` of `2.5`, `1` of `PZ1`. */
function sizeOf(size: string, number: (value: number) => string): string {
  const digits = /\d+(?:\.\d+)?/.exec(size)?.[0]
  return digits === undefined ? size : number(Number(digits))
}

/** The line of the box that holds a fastener, preferably from the given bag. */
export function findFastenerItem({ fit }: Context, designation: string, bag?: string): BoxItem | undefined {
  const items = fit.box.filter((item) => item.fastener?.designation === designation)
  return items.find((item) => bag !== undefined && item.bag === bag) ?? items[0]
}

/** The line of the box that holds a part, tie, pad or cable. */
export function findItem({ fit }: Context, id: string): BoxItem | undefined {
  return fit.box.find((item) => item.id === id)
}
