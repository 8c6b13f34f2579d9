/** Keys of one map: mistyped ones, numbers that a comma cut in two, keys that exclude each other. */
import { nearestNames, nearNames } from "../findings/near.ts"
import { parseNumber } from "../units/parse.ts"
import { nameOf } from "./names.ts"
import { type Entry, hole, type Tree, type TreeMap } from "./read/tree.ts"
import type { At } from "./schema/forms.ts"
import { fault, oneOfWords, quote } from "./tell.ts"

/**
 * Keys that are none are told; one that is clearly a mistyped key counts as that key, so nothing else is told about it.
 * Where several keys are equally near, each of them counts as written, without a value.
 */
export function keepKnown(entries: readonly Entry[], keys: readonly string[], tree: TreeMap, at: At): readonly Entry[] {
  const taken = new Set(tree.entries.map((entry) => entry.key))
  return entries.flatMap((entry) => {
    if (keys.includes(entry.key)) return [entry]
    const open = keys.filter((key) => !taken.has(key) && key !== "kind")
    const near = nearKeys(entry.key, open)
    tellUnknown(entry, near, open, at)
    const nearest = near.length > 1 ? nearestNames(entry.key, near) : near
    for (const key of nearest) taken.add(key)
    const value = nearest.length > 1 ? hole(entry.value.span) : entry.value
    return nearest.map((key) => ({ ...entry, key, value }))
  })
}

function tellUnknown({ key, keySpan }: Entry, near: readonly string[], open: readonly string[], at: At): void {
  const [first] = near
  const isAct = at.path.at(-2) === "do" || at.path.at(-2) === "arrives"
  const owner = nameOf(isAct ? at.path.slice(0, -2) : at.path)
  const message = isAct
    ? `${owner} has the act ${quote(key)}, which is no verb that is known`
    : `${owner} has ${quote(key)}${first === undefined ? ", which is no key here" : ` but no \`${first}\``}`
  const renaming = near.length === 1 ? `rename \`${key}\` to \`${first}\`` : `write ${oneOfWords(near)}`
  const dropping =
    key === "new"
      ? "take it out; `new: true` is for ids in variant files"
      : `take it out; known here are ${oneOfWords(open.slice(0, 8))}`
  const fix = first === undefined ? dropping : renaming
  at.tell(fault(isAct ? "unknown-act" : "unknown-key", "error", { message, at: keySpan, path: [...at.path, key], fix }))
}

function nearKeys(key: string, keys: readonly string[]): readonly string[] {
  const plain = key.replace(/_|(?<=[a-z])(?=[A-Z])/g, "-").toLowerCase()
  return keys.includes(plain) ? [plain] : nearNames(plain, keys)
}

/** In `{ depth: 3,5 }` YAML reads two entries; they are one number with a decimal comma. */
export function joinCommas(entries: readonly Entry[], at: At): readonly Entry[] {
  const joined: Entry[] = []
  for (const entry of entries) {
    const before = joined.at(-1)
    const value = before?.value
    const isRest = /^\d+(\s*[A-Za-z"°·]+)?$/.test(entry.key) && entry.value.kind === "scalar" && entry.value.isEmpty
    const isNumber = value?.kind === "scalar" && /\d$/.test(value.written) && entry.keySpan.line === value.span.endLine
    if (before === undefined || value?.kind !== "scalar" || !isRest || !isNumber) {
      joined.push(entry)
      continue
    }
    const written = `${value.written},${entry.key}`
    const span = { ...value.span, endLine: entry.keySpan.endLine, endColumn: entry.keySpan.endColumn }
    const message = `${nameOf([...at.path, before.key])} is written ${quote(written)}; a comma in \`{ }\` begins a new key`
    at.tell(
      fault("decimal-comma", "error", {
        message,
        at: span,
        path: [...at.path, before.key],
        fix: `write ${quote(written.replace(",", "."))}`,
      }),
    )
    const isRead = ["length", "torque", "mass", "duration"].some(
      (dimension) => parseNumber(written, dimension as "length").is === "number",
    )
    const value2: Tree = isRead
      ? { ...value, value: written.replace(",", "."), written: written.replace(",", "."), span }
      : hole(span)
    joined[joined.length - 1] = { ...before, value: value2 }
  }
  return joined
}

/** Of keys that exclude each other the first is kept; the others are told. */
export function keepExclusive(
  entries: readonly Entry[],
  groups: readonly (readonly string[])[],
  at: At,
): readonly Entry[] {
  let kept = entries
  for (const group of groups) {
    const [first, ...others] = kept.filter((entry) => group.includes(entry.key) && !isNull(entry.value))
    for (const other of others) {
      const message = `${nameOf(at.path)} has both \`${first?.key}\` and \`${other.key}\`; only one can be`
      at.tell(
        fault("keys-exclude-each-other", "error", {
          message,
          at: other.keySpan,
          path: [...at.path, other.key],
          fix: `take \`${other.key}\` or \`${first?.key}\` out`,
        }),
      )
      kept = kept.filter((entry) => entry !== other)
    }
  }
  return kept
}

function isNull(tree: Tree): boolean {
  return tree.kind === "scalar" && tree.value === null
}
