/** What every section of a document is made from, and the names that all of them print. */
import type { Drawings } from "../drawing/types.ts"
import type { Fastener } from "../fasteners/types.ts"
import type { BoxItem, JointFit, ToolNeed } from "../fit/types.ts"
import type { Joint, OwnJoint } from "../kit/joint-types.ts"
import type { Tie } from "../kit/types.ts"
import { findName, sayName, startLine, withReference } from "./names.ts"
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

/** `cap screw ISO 4762 - M4 x 14 - A2-70 (4)`: the kind in words for who does not know the standard by heart. */
export function sayFastener({ words }: Context, fastener: Fastener, reference?: number): string {
  return withReference(`${words.fastener(fastener)} ${saySize(fastener)}`, reference)
}

/** What follows the kind: a screw without a standard has its kind in its designation, `thread-forming pan M3 x 10`. */
export function saySize({ standard, designation }: Fastener): string {
  return standard === undefined ? designation.replace(/^[a-z][a-z -]*(?=M\d)/, "") : designation
}

/** Designations that are kept on one line; longer ones may be broken, else lines get too ragged. */
export function listShortDesignations({ kit, fit }: Context): readonly string[] {
  const all = [...fit.box.map((item) => item.fastener), ...kit.ownJoints.map((joint) => joint.fastener)]
  const sizes = all.flatMap((fastener) => (fastener === undefined ? [] : [saySize(fastener)]))
  return [...new Set(sizes.filter((size) => size.length <= 28))]
}

/** `2 × cap screw ISO 4762 - M4 x 14 - A2-70 (4)`, with washers and nuts of the joint when they are asked for. */
export function sayFasteners(context: Context, joint: Joint, count: number, withLoose = false): string {
  const { measures, list } = context.words
  const some = (fastener: Fastener, reference: number | undefined): string =>
    `${measures.times(count)}\u00a0${sayFastener(context, fastener, reference)}`
  const items = [some(joint.fastener, joint.itemReference)]
  if (withLoose && joint.washer !== undefined) items.push(some(joint.washer, joint.washerReference))
  const nut = joint.bore.kind === "nut" ? joint.bore.fastener : undefined
  if (withLoose && nut !== undefined) items.push(some(nut, joint.nutReference))
  return list(items)
}

/** `2 × cap screw ISO 4762 - M4 x 8 - A2-70 (own screws)`: they have no item reference, since the box does not hold them. */
export function sayOwnScrews(context: Context, own: OwnJoint, count: number): string {
  const { measures, steps } = context.words
  return `${measures.times(count)}\u00a0${sayFastener(context, own.fastener)} (${steps.ownScrews})`
}

/** `4 × clamp (6)`. */
export function sayTies(context: Context, tie: Tie, count: number): string {
  return `${context.words.measures.times(count)}\u00a0${sayName(context, tie.id, ["tie"])}`
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
  if (tool.kind === "declared") return sayName(context, tool.id, ["tool"])
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
export function findItem({ fit }: Context, kind: BoxItem["kind"], id: string): BoxItem | undefined {
  return fit.box.find((item) => item.kind === kind && item.id === id)
}

/** Name of a line of the box at the start of a line: designation of a fastener with its kind, name of anything else. */
export function nameItem(context: Context, { kind, id, fastener }: BoxItem): string {
  if (fastener !== undefined) return startLine(sayFastener(context, fastener))
  return startLine(id === undefined ? "" : findName(context, id, kind === "fastener" ? [] : [kind]).name)
}
