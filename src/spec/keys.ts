/** Keys of one map: mistyped ones, numbers that a comma cut in two, keys that exclude each other. */
import { nearestNames, nearNames } from "../findings/near.ts"
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
      : open.length === 0
        ? "take it out, or write it one level further out"
        : `take it out; known here are ${oneOfWords(open.slice(0, 8))}`
  const fix = first === undefined ? dropping : renaming
  at.tell(fault(isAct ? "unknown-act" : "unknown-key", "error", { message, at: keySpan, path: [...at.path, key], fix }))
}

function nearKeys(key: string, keys: readonly string[]): readonly string[] {
  const plain = key.replace(/_|(?<=[a-z])(?=[A-Z])/g, "-").toLowerCase()
  return keys.includes(plain) ? [plain] : nearNames(plain, keys)
}

/**
 * In `{ depth: 3,5 }` YAML reads two entries, in `{ diameter: 31,5 to 32,5 }` three; they are one value with decimal
 * commas. It is told once and read as it was meant.
 */
export function joinCommas(entries: readonly Entry[], at: At): readonly Entry[] {
  const joined: Entry[] = []
  for (let index = 0; index < entries.length; index += 1) {
    const entry = entries[index]
    if (entry === undefined) continue
    const rest = restOfNumber(entry, entries.slice(index + 1))
    const last = rest.at(-1)
    const { value } = entry
    if (last === undefined || value.kind !== "scalar") {
      joined.push(entry)
      continue
    }
    const pieces = [value.written, ...rest.map(({ key }) => key)]
    const span = { ...value.span, endLine: last.keySpan.endLine, endColumn: last.keySpan.endColumn }
    const path = [...at.path, entry.key]
    const message = `${nameOf(path)} is written ${quote(pieces.join(","))}; a comma in \`{ }\` begins a new key`
    const meant = pieces.join(".")
    at.tell(fault("decimal-comma", "error", { message, at: span, path, fix: `write ${quote(meant)}` }))
    joined.push({ ...entry, value: { ...value, value: meant, written: meant, span } })
    index += rest.length
  }
  return joined
}

/** The entries behind one that ends in a digit which begin with a digit and hold nothing, on the same line. */
function restOfNumber({ value }: Entry, later: readonly Entry[]): readonly Entry[] {
  if (value.kind !== "scalar") return []
  let before = value.written
  const rest: Entry[] = []
  for (const entry of later) {
    const isRest = /^\d/.test(entry.key) && entry.value.kind === "scalar" && entry.value.isEmpty
    if (!isRest || !/\d$/.test(before) || entry.keySpan.line !== value.span.endLine) break
    rest.push(entry)
    before = entry.key
  }
  return rest
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
