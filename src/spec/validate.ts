/** Checks the long form against the schema, words what it finds, and keeps what is right. */
import type { z } from "zod"
import type { Finding } from "../findings/types.ts"
import { wordIssue } from "./issue-words.ts"
import { type Tree, treeAt } from "./read/tree.ts"
import { type KitInput, kitFile } from "./schema/kit.ts"

/** Stand-ins for what every kit must have, so that the rest can still be looked at. */
const stand: Readonly<Record<string, unknown>> = {
  kit: "unnamed",
  title: "?",
  revision: { id: "?", date: "?" },
  steps: {},
}

/**
 * Gives the typed kit. A value at fault is left out; when its owner cannot be without it, the owner is.
 * What was reported before (a hole) is left out in silence.
 */
export function validate(tree: Tree): { readonly value: KitInput; readonly findings: readonly Finding[] } {
  const plain = toPlain(tree)
  const first = kitFile.safeParse(plain)
  if (first.success) return { value: first.data, findings: [] }
  const findings = flatten(first.error.issues).flatMap((issue) => {
    const path = issue.path.map(String)
    return isBelowHole(tree, path) ? [] : wordIssue(issue, path, tree)
  })
  return { value: prune(plain, first.error.issues), findings: dropRepeats(findings) }
}

/** Issues of the option of a union that was meant: the one whose faults lie deepest. */
function flatten(issues: readonly z.core.$ZodIssue[]): readonly z.core.$ZodIssue[] {
  return issues.flatMap((issue) => {
    if (issue.code !== "invalid_union" || issue.errors.length === 0) return [issue]
    const options = issue.errors.map((option) =>
      option.map((inner) => ({ ...inner, path: [...issue.path, ...inner.path] })),
    )
    const depth = (option: readonly z.core.$ZodIssue[]): number => Math.max(...option.map((inner) => inner.path.length))
    const meant = [...options].sort((one, other) => depth(other) - depth(one))[0] ?? []
    return flatten(meant)
  })
}

function isBelowHole(tree: Tree, path: readonly string[]): boolean {
  return path.some((_, index) => treeAt(tree, path.slice(0, index + 1))?.kind === "hole")
}

function dropRepeats(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>()
  return findings.filter((one) => {
    const key = `${one.id} ${one.message} ${one.where.line} ${one.where.column}`
    const isFirst = !seen.has(key)
    seen.add(key)
    return isFirst
  })
}

/** Takes out what is at fault, and owners that cannot be without it, until the schema is content. */
function prune(plain: unknown, issues: readonly z.core.$ZodIssue[]): KitInput {
  let value = plain
  let open = issues
  for (let round = 0; round < 20; round += 1) {
    for (const issue of [...open].sort((one, other) => compareIndexes(other.path, one.path))) {
      for (const path of issue.code === "unrecognized_keys"
        ? issue.keys.map((key) => [...issue.path, key])
        : [issue.path])
        value = takeOut(value, path)
    }
    const again = kitFile.safeParse(value)
    if (again.success) return again.data
    open = again.error.issues
  }
  return kitFile.parse({ ...stand })
}

/** Later items of a list come first, so that taking one out moves no other. */
function compareIndexes(one: readonly PropertyKey[], other: readonly PropertyKey[]): number {
  const index = one.findIndex((key, position) => key !== other[position])
  const [left, right] = [one[index], other[index]]
  return typeof left === "number" && typeof right === "number" ? left - right : 0
}

/** Gives a copy without the value at `path`; when that is not there, without its owner. */
function takeOut(value: unknown, path: readonly PropertyKey[], level = 0): unknown {
  const [key, ...rest] = path
  if (key === undefined || typeof value !== "object" || value === null) return value
  const isFurtherIn = (child: unknown): boolean =>
    rest[0] !== undefined && typeof child === "object" && child !== null && Object.hasOwn(child, rest[0])
  if (Array.isArray(value)) {
    const index = Number(key)
    return value.flatMap((item: unknown, position) =>
      position !== index ? [item] : isFurtherIn(item) ? [takeOut(item, rest, level + 1)] : [],
    )
  }
  const name = String(key)
  const kept = Object.entries(value).flatMap(([one, child]): readonly (readonly [string, unknown])[] =>
    one !== name ? [[one, child]] : isFurtherIn(child) ? [[one, takeOut(child, rest, level + 1)]] : [],
  )
  const result = Object.fromEntries(kept)
  return level > 0 || Object.hasOwn(result, name) || !Object.hasOwn(stand, name)
    ? result
    : { ...result, [name]: stand[name] }
}

/** The tree as plain values. Holes and `null` are left out; names that JavaScript keeps for itself do not occur. */
function toPlain(tree: Tree): unknown {
  if (tree.kind === "scalar") return tree.value
  if (tree.kind === "list") return tree.items.map(toPlain)
  if (tree.kind === "hole") return undefined
  const kept = tree.entries.filter(({ key, value }) => key !== "__proto__" && value.kind !== "hole")
  return Object.fromEntries(kept.map(({ key, value }) => [key, toPlain(value)]))
}
