/** Acts of a step: one-key maps, counts, `through`, `to`, `from`, waiting times. */

import { nearNames } from "../../findings/near.ts"
import { parseNumber } from "../../units/parse.ts"
import { nameOf } from "../names.ts"
import { cut, hole, type Scalar, shortMap, type Tree, type TreeMap } from "../read/tree.ts"
import type { At, ShortForm } from "../schema/forms.ts"
import { fault, oneOfWords, quote } from "../tell.ts"
import type { Verb } from "../types.ts"
import { splitAt, unreadable } from "./places.ts"
import { splitCount } from "./things.ts"

/** Every act there is, with what it says to an editor. */
export const verbs: Readonly<Record<Verb, string>> = {
  place: "Put a part in its place",
  remove: "Take a part off",
  align: "Line a part up before it is fastened",
  start: "Turn the screws of a joint in by hand, a few turns",
  tighten: "Tighten a joint to its torque",
  unscrew: "Take the screws of a joint out",
  feed: "Run a cable end through an opening",
  withdraw: "Pull a cable end back out of an opening",
  connect: "Plug a cable end into a socket",
  disconnect: "Unplug a cable end",
  strap: "Close a tie round the frame",
  trim: "Cut the tail of a tie",
  clean: "Clean a surface",
  stick: "Stick a pad on",
  open: "Open a hinged or sliding part",
  close: "Close a hinged or sliding part",
  turn: "Turn the assembly so that another side faces the reader",
  isolate: "Cut off the power",
  verify: "Check that the power is off",
  restore: "Switch the power on again",
  inspect: "Look whether the work is right",
  "set-aside": "Keep something for later",
  discard: "Throw something away",
  wait: "Wait for a time",
}

/** Acts whose target may be free words: `inspect: The lamp is green`. */
const freeVerbs: ReadonlySet<string> = new Set(["inspect", "wait", "clean", "align", "turn", "verify"])

const examples: Readonly<Record<string, string>> = {
  feed: "lead.plug through hood-hole",
  withdraw: "lead.plug from hood-hole",
  connect: "lead.plug to driver.power",
  disconnect: "lead.plug from driver.power",
}

const verbNames: readonly string[] = Object.keys(verbs)
const idList = /^[a-z][\w.-]*(?:\s*,\s*[a-z][\w.-]*)+$/

/** The `do:` of a step, or `arrives:`, to a list of one-key maps; what holds several acts is split. */
export const actsForm: ShortForm = (tree, at) => {
  if (tree.kind === "hole" || (tree.kind === "scalar" && tree.value === null)) return tree
  const items = tree.kind === "list" ? tree.items : [tree]
  const acts = items.flatMap((item, index) => splitAct(item, { ...at, path: [...at.path, String(index)] }))
  return { kind: "list", items: acts, span: tree.span }
}

function splitAct(item: Tree, at: At): readonly Tree[] {
  if (item.kind === "scalar" && item.value !== null) return [actOfText(item, at)]
  if (item.kind !== "map") return [item]
  if (item.entries.length > 1) {
    const names = item.entries.map((entry) => entry.key)
    const isOneAct = names.filter((name) => verbNames.includes(name)).length < 2
    if (isOneAct) return [item]
    const message = `one act holds ${names.length} verbs: ${names
      .slice(0, 3)
      .map((name) => `\`${name}\``)
      .join(", ")}`
    const span = item.entries[1]?.keySpan ?? item.span
    at.tell(
      fault("several-acts", "error", {
        message,
        at: span,
        path: at.path,
        fix: "give each act a line of its own that begins with `- `",
      }),
    )
  }
  return item.entries.flatMap((entry) => targetsOf(entry.value).map((value) => one(entry, value)))
}

function one(entry: TreeMap["entries"][number], value: Tree): TreeMap {
  const span = { ...entry.keySpan, endLine: value.span.endLine, endColumn: value.span.endColumn }
  const joined = value.kind === "scalar" && value.isEmpty ? entry.keySpan : span
  return { kind: "map", entries: [{ ...entry, value }], span: joined, isShort: false }
}

/** `place: [saddle.front, saddle.rear]` and `place: saddle.front, saddle.rear` are two acts. */
function targetsOf(value: Tree): readonly Tree[] {
  if (value.kind === "list") return value.items.length === 0 ? [hole(value.span)] : value.items
  if (value.kind === "scalar" && idList.test(value.written)) return splitAt(value, /\s*,\s*/g)
  return [value]
}

/** An act typed as text, `tighten hood`, lacks its colon. */
function actOfText(item: Scalar, at: At): Tree {
  const match = /^\s*([a-z-]+)\s*:?\s*(.*?)\s*$/i.exec(item.written)
  const word = match?.[1]?.toLowerCase() ?? ""
  const rest = match?.[2] ?? ""
  const owner = nameOf(at.path.slice(0, -2))
  if (verbNames.includes(word)) {
    const message = `${owner} has the act ${quote(item.written)} without a colon`
    at.tell(
      fault("act-without-colon", "error", {
        message,
        at: item.span,
        path: at.path,
        fix: `write \`${word}: ${rest === "" ? "…" : rest}\``,
      }),
    )
    const value =
      rest === "" ? hole(item.span) : cut(item, item.written.indexOf(rest, word.length), item.written.trimEnd().length)
    return shortMap(item.span, { [word]: value })
  }
  const near = nearNames(word, verbNames)
  const message = `${owner} has the act ${quote(item.written)}, which begins with no verb that is known`
  const fix =
    near.length > 0 ? `write ${oneOfWords(near.map((name) => `${name}: …`))}` : "write an act such as `tighten: hood`"
  at.tell(fault("unknown-act", "error", { message, at: item.span, path: at.path, fix }))
  return hole(item.span)
}

/** `2 x foot`, `lead.plug through hood-hole`, `lead.plug to driver.power`, `10 min` to the long form of one act. */
export const actForm: ShortForm = (tree, at) => {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const verb = at.path.at(-1)
  const text = tree.written.trim()
  if (verb === "wait" && parseNumber(text, "duration").is === "number") return shortMap(tree.span, { time: tree })
  const pause = verb === "wait" ? timeAndReason(tree) : undefined
  if (pause !== undefined) return shortMap(tree.span, pause)
  const { count, rest, isCounted } = splitCount(tree)
  const counted = isCounted ? { count } : {}
  const match = /^\s*(\S+?)\s+(through|into|to|from|for)\s+(\S.*?)\s*$/.exec(rest.written)
  const [, what = "", word = "", other = ""] = match ?? []
  const isName = (name: string): boolean => /^[A-Za-z][\w.-]*$/.test(name)
  if (match === null || !isName(what) || (word !== "for" && !isName(other))) {
    if (isName(rest.written.trim())) return shortMap(tree.span, { ...counted, what: rest })
    const isFree = verb !== undefined && freeVerbs.has(verb)
    return isFree
      ? shortMap(tree.span, { for: tree })
      : unreadable(
          tree,
          at,
          "a name, alone or with `through`, `to` or `from`",
          `${verb}: ${examples[verb ?? ""] ?? "plate"}`,
        )
  }
  const whatAt = rest.written.indexOf(what)
  const otherAt = rest.written.lastIndexOf(other)
  const target = cut(rest, whatAt, whatAt + what.length)
  const otherPart = cut(rest, otherAt, otherAt + other.length)
  const key =
    word === "into" ? "to" : word === "for" ? (parseNumber(other, "duration").is === "number" ? "time" : "for") : word
  return shortMap(tree.span, { ...counted, what: target, [key]: otherPart })
}

/** `30 min for seal`: a time, and what it is for. */
function timeAndReason(tree: Scalar): { readonly time: Scalar; readonly for: Scalar } | undefined {
  const { written } = tree
  const [, time = "", between = "", reason = ""] = /^\s*(.+?)(\s+for\s+)(\S.*?)\s*$/.exec(written) ?? []
  if (time === "" || parseNumber(time, "duration").is !== "number") return undefined
  const timeAt = written.indexOf(time)
  const reasonAt = timeAt + time.length + between.length
  return { time: cut(tree, timeAt, timeAt + time.length), for: cut(tree, reasonAt, reasonAt + reason.length) }
}
