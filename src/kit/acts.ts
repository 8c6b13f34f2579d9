/** Acts of steps: the target of each verb found among the things it can act on. */
import { nearNames } from "../findings/near.ts"
import type { Place } from "../findings/types.ts"
import { oneOfWords, quote } from "../spec/tell.ts"
import type { ActSpec, Verb } from "../spec/types.ts"
import { endNamed } from "./cables.ts"
import { called, placeOf, report, reportUnknownName } from "./desk.ts"
import {
  isLeftOut,
  kindsInWords,
  knownNames,
  lookUp,
  meantPaths,
  type NameKind,
  reportAmbiguous,
  unknownKey,
} from "./names.ts"
import type { Shop } from "./shop.ts"
import type { Act } from "./types.ts"

/** Everything that can be taken in hand or pointed at. */
const things: readonly NameKind[] = ["part", "instance", "unit", "frame", "pad", "tie", "cable", "joint", "own-joint"]

/** What each verb acts on: a name that several kinds bear is the first of them. */
export const actsOn: Readonly<Record<Verb, readonly NameKind[]>> = {
  place: ["part", "instance", "unit", "pad", "tie", "assembly"],
  remove: ["part", "instance", "unit", "pad", "tie", "assembly"],
  align: ["part", "instance", "joint", "own-joint", "unit"],
  start: ["joint", "own-joint"],
  tighten: ["joint", "own-joint"],
  unscrew: ["own-joint", "joint"],
  feed: ["end"],
  withdraw: ["end"],
  connect: ["end"],
  disconnect: ["end"],
  strap: ["tie"],
  trim: ["tie"],
  clean: [...things, "socket", "passage", "bore"],
  stick: ["pad"],
  open: ["part", "instance", "passage"],
  close: ["part", "instance", "passage"],
  turn: ["unit", "part", "instance", "frame", "assembly"],
  isolate: ["unit", "cable"],
  verify: ["unit", "cable"],
  restore: ["unit", "cable"],
  inspect: [...things, "assembly", "socket", "passage", "bore", "end", "step"],
  "set-aside": ["own-joint", "joint", "part", "instance", "tie", "pad", "cable"],
  discard: ["own-joint", "joint", "part", "instance", "tie", "pad", "cable"],
  wait: ["pad", "joint"],
}

/** Verbs that also take a sentence of the maker: `inspect: nothing rattles`. */
const takesWords: ReadonlySet<Verb> = new Set(["inspect", "clean", "align", "turn", "verify", "wait"])
/** Verbs whose act moves pieces. */
const movesPieces: ReadonlySet<Verb> = new Set(["place", "remove", "open", "close", "turn", "align"])

/** What was resolved and is in the kit; acts on anything that was left out are left out without a word. */
export type Resolved = {
  readonly joints: ReadonlySet<string>
  readonly pads: ReadonlyMap<string, readonly string[]>
}

/** Resolves one act; undefined when its target or its other end is not there, each reported. */
export function resolveAct(shop: Shop, resolved: Resolved, spec: ActSpec): Act | undefined {
  const target = targetOf(shop, spec)
  if (target === undefined) return undefined
  if (target.kind === "joint" && !resolved.joints.has(target.id)) return undefined
  if (target.kind === "pad" && !resolved.pads.has(target.id)) return undefined
  const other = otherEndOf(shop, spec, target.id)
  if (other === undefined) return undefined
  return {
    verb: spec.verb,
    path: spec.path,
    target: target.id,
    instances: instancesOf(shop, resolved, spec.verb, target),
    through: other.through,
    to: other.to,
    count: spec.count,
    minutes: spec.minutes,
    words:
      spec.verb === "wait" && target.kind !== "words"
        ? undefined
        : (spec.words ?? (target.kind === "words" && target.written !== "" ? target.written : undefined)),
  }
}

type Target =
  | { readonly kind: NameKind | "all"; readonly id: string }
  | { readonly kind: "words"; readonly id: string; readonly written: string }

function targetOf(shop: Shop, spec: ActSpec): Target | undefined {
  const { verb } = spec
  const target = writtenTarget(spec)
  const where = whereOf(shop, spec, spec.target === "" ? "for" : "what")
  const kinds = kindsOf(shop, verb, target)
  if (target.trim() === "") {
    if (takesWords.has(verb)) return { kind: "words", id: "", written: spec.words ?? "" }
    reportAct(shop, spec, where, `${called(spec.path)} does not say what to ${verb}`, undefined)
    return undefined
  }
  if (target === "all" && (verb === "inspect" || verb === "turn")) return { kind: "all", id: "all" }
  const found = lookUp(shop.names, kinds, target)
  // A look at either of two things changes nothing.
  const cameOff =
    verb === "set-aside" || verb === "discard" ? lookUp(shop.names, kindsTakenOff(shop, target), target) : undefined
  if (cameOff !== undefined) return cameOff
  if (found !== undefined && verb !== "inspect") {
    const step = called(spec.path.split("/").slice(0, 2).join("/"))
    reportAmbiguous(shop, kinds, target, `${step} by \`${verb}\``, where)
  }
  if (found !== undefined) return found
  if (kinds.includes("end") && verb !== "inspect") {
    if (isLeftOut(shop.spec, shop.names, ["end", "cable"], target)) return undefined
    if (!shop.names.cable.has(target)) return reportTarget(shop, spec, where)
    const end = endNamed(shop, target, spec.path, where)
    return end === undefined ? undefined : { kind: "end", id: end }
  }
  const looksLikeName = /^[a-z][\w-]*(\.[\w-]+)?$/.test(target)
  if (verb === "wait" && !looksLikeName) return { kind: "words", id: "", written: target }
  if (isLeftOut(shop.spec, shop.names, kinds, target)) return undefined
  const known = knownNames(shop.names, kinds)
  const isTypo = looksLikeName && nearNames(target, known).length > 0
  if (takesWords.has(verb) && !isTypo) return { kind: "words", id: "", written: target }
  return reportTarget(shop, spec, where)
}

/** `wait: 30 min for grip` waits for the pad, and `wait: grip` too. */
function writtenTarget({ verb, target, words = "" }: ActSpec): string {
  return verb === "wait" && target === "" ? words : target
}

/** Of passages only glands can be tightened and loosened. */
function kindsOf(shop: Shop, verb: Verb, target: string): readonly NameKind[] {
  const isGland = shop.spec.passages.some(({ id, clamps }) => id === target && clamps !== undefined)
  return isGland || (verb !== "open" && verb !== "close") ? actsOn[verb] : ["part", "instance"]
}

/** Of a part and of screws with one name, what came off is meant: the kinds that acts take off, when they are all of a sort. */
function kindsTakenOff(shop: Shop, target: string): readonly NameKind[] {
  const acts = shop.spec.steps.flatMap((step) => step.acts).filter((act) => act.target === target)
  const isUnscrewed = acts.some(({ verb }) => verb === "unscrew")
  const isRemoved = acts.some(({ verb }) => verb === "remove")
  if (isUnscrewed === isRemoved) return []
  return isUnscrewed ? ["own-joint", "joint"] : ["part", "instance"]
}

function reportTarget(shop: Shop, spec: ActSpec, where: Place): undefined {
  const { verb } = spec
  const target = writtenTarget(spec)
  const kinds = kindsOf(shop, verb, target)
  const known = knownNames(shop.names, kinds)
  const elsewhere = lookUp(shop.names, Object.keys(shop.names) as NameKind[], target) // Keys of a record over these kinds.
  const is = elsewhere === undefined ? "which nothing is called" : `which is ${kindsInWords([elsewhere.kind])}`
  const near = nearNames(target, known)
  const isOpening = elsewhere?.kind === "passage" && (verb === "open" || verb === "close")
  const fix = isOpening
    ? `write \`clamps: yes\` at passage \`${target}\` when it is a gland`
    : near.length > 0
      ? `write ${oneOfWords(near)}`
      : known.length > 0 && known.length <= 6
        ? `write ${oneOfWords(known)}`
        : undefined
  const step = called(spec.path.split("/").slice(0, 2).join("/"))
  reportUnknownName(shop, "unknown-name", unknownKey(shop.names, kinds, target), {
    meant: meantPaths(shop, kinds, target),
    message: `${step} has the act ${quote(`${verb}: ${target}`)}, ${is}`,
    where,
    why: `\`${verb}\` acts on ${kindsInWords(kinds)}${known.length === 0 ? ", and there is none" : ""}`,
    ...(fix === undefined ? {} : { fix }),
  })
  return undefined
}

/** Passage or socket of the act. */
function otherEndOf(
  shop: Shop,
  spec: ActSpec,
  end: string,
): { readonly through: string | undefined; readonly to: string | undefined } | undefined {
  const { verb, through, to } = spec
  if (verb === "feed" || verb === "withdraw") {
    const word = verb === "feed" ? "through" : "from"
    const written = through ?? to
    if (written === undefined) {
      const message = `act ${quote(`${verb}: ${spec.target}`)} does not say ${word} which passage`
      reportAct(shop, spec, placeOf(shop, spec.path), message, `write \`${verb}: ${end} ${word} …\``)
      return undefined
    }
    const passage = named(shop, spec, "passage", written, through === undefined ? "from" : "through")
    return passage === undefined ? undefined : { through: passage, to: undefined }
  }
  if (verb === "connect" || verb === "disconnect") {
    if (to !== undefined) {
      const socket = named(shop, spec, "socket", to, "to")
      return socket === undefined ? undefined : { through: undefined, to: socket }
    }
    const own = socketOf(shop, end, verb)
    if (own === undefined) {
      const word = verb === "connect" ? "to" : "from"
      const message = `act ${quote(`${verb}: ${spec.target}`)} does not say ${word} which socket`
      reportAct(shop, spec, placeOf(shop, spec.path), message, `write \`${verb}: ${end} ${word} …\``)
      return undefined
    }
    return { through: undefined, to: own }
  }
  return { through, to }
}

/** The only socket that takes the end, or that it is connected to on arrival. */
function socketOf(shop: Shop, end: string, verb: "connect" | "disconnect"): string | undefined {
  if (verb === "disconnect") {
    const arrival = shop.spec.cables
      .flatMap((cable) => cable.ends.map((one) => ({ id: `${cable.id}.${one.id}`, to: one.connectedTo })))
      .find(({ id }) => id === end)?.to
    if (arrival !== undefined) return arrival
  }
  const takers = shop.spec.hosts
    .flatMap((host) => (host.kind === "unit" ? host.sockets.map((socket) => ({ socket, unit: host.id })) : []))
    .filter(({ socket }) => socket.takes === end || (socket.takes !== undefined && end.startsWith(`${socket.takes}.`)))
  const [only] = takers
  return takers.length === 1 && only !== undefined ? `${only.unit}.${only.socket.id}` : undefined
}

function named(shop: Shop, spec: ActSpec, kind: NameKind, name: string, field: string): string | undefined {
  const id = shop.names[kind].get(name)
  if (id !== undefined || isLeftOut(shop.spec, shop.names, [kind], name)) return id
  const known = knownNames(shop.names, [kind])
  const near = nearNames(name, known)
  const fix = near.length > 0 ? near : known.length <= 6 ? known : []
  const step = called(spec.path.split("/").slice(0, 2).join("/"))
  reportUnknownName(shop, "unknown-name", unknownKey(shop.names, [kind], name), {
    meant: meantPaths(shop, [kind], name),
    message: `${step} has the act ${quote(`${spec.verb}: ${spec.target}`)} with ${quote(name)}, which is no ${kind}`,
    where: whereOf(shop, spec, field),
    why: known.length === 0 ? `the kit has no ${kind}` : `\`${spec.verb}\` needs the name of a ${kind} here`,
    ...(fix.length === 0 ? {} : { fix: `write ${oneOfWords(fix)}` }),
  })
  return undefined
}

function instancesOf(shop: Shop, resolved: Resolved, verb: Verb, target: Target): readonly string[] {
  if (target.kind === "pad") return resolved.pads.get(target.id) ?? []
  if (!movesPieces.has(verb)) return []
  if (target.kind === "instance") return [target.id]
  const isPiece = target.kind === "part" || target.kind === "unit" || target.kind === "frame"
  return isPiece ? (shop.placed.get(target.id)?.instances.map(({ id }) => id) ?? []) : []
}

function reportAct(shop: Shop, spec: ActSpec, where: Place, message: string, fix: string | undefined): void {
  const why = `\`${spec.verb}\` acts on ${kindsInWords(actsOn[spec.verb])}`
  report(shop, "act-incomplete", "error", { message, where, why, ...(fix === undefined ? {} : { fix }) })
}

/** Place of one value of an act, in the short form or the long one. */
function whereOf(shop: Shop, spec: ActSpec, field: string): Place {
  return placeOf(shop, spec.path, spec.verb, field)
}
