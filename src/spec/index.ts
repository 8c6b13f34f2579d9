/** Reads the files of a kit into one spec per variant. */
import { z } from "zod"
import { mergeFindings } from "../findings/order.ts"
import type { Finding, Outcome } from "../findings/types.ts"
import { buildSpec } from "./build/spec.ts"
import { expand } from "./expand.ts"
import { collectPlaces } from "./places.ts"
import { decodeFile } from "./read/decode.ts"
import { parseYaml } from "./read/parse-yaml.ts"
import { childOf, type TreeMap } from "./read/tree.ts"
import { changeableShape, kitFile, variantHeader } from "./schema/kit.ts"
import { fault, type Tell } from "./tell.ts"
import type { Spec } from "./types.ts"
import { validate } from "./validate.ts"
import { type Combination, combine, readAxes, readVariantFile, type VariantFile } from "./variants/axes.ts"
import { merge, type Written } from "./variants/merge.ts"
import { placeSteps, refuseWishes } from "./variants/steps.ts"

export { kitSchema, makeSchemas, variantSchema } from "./schema/json.ts"

/** A file of the kit's folder; the path is relative to that folder, with `/`. */
export type SpecFile = { readonly path: string; readonly bytes: Uint8Array }

const variantFile = z.strictObject({ ...variantHeader, ...changeableShape })

/**
 * Gives one spec per variant, in the order of the axes and their values, from `kit.yaml` and `variants/*.yaml`.
 * All faults are told in one run; what is right is kept. A name that has a place in `places` but is not in the spec was
 * told here already. Without a readable `kit.yaml` there is no spec.
 */
export function loadSpecs(files: readonly SpecFile[]): Outcome<readonly Spec[]> {
  const findings: Finding[] = []
  const tell: Tell = (one) => findings.push(one)
  const kitSource = files.find((file) => /^kit\.ya?ml$/i.test(file.path))
  if (kitSource === undefined) {
    const at = { file: "kit.yaml", line: 1, column: 1, endLine: 1, endColumn: 1 }
    tell(
      fault("kit-file-missing", "error", {
        message: "the folder has no `kit.yaml`",
        at,
        fix: "write one, or name the folder of a kit",
      }),
    )
    return { value: [], findings }
  }
  const kitTree = readTree(kitSource, tell)
  if (kitTree === undefined) return { value: [], findings }
  const at = { path: [], tell, isVariant: false, base: undefined }
  const expanded = expand(kitTree, kitFile, at)
  if (expanded.kind !== "map") return { value: [], findings }
  const kit = refuseWishes(expanded, tell)
  const axes = readAxes(kit, tell)
  const kitId = childOf(kit, "kit")
  const variants = [...files]
    .filter((file) => /^variants\/[^/]+\.ya?ml$/i.test(file.path))
    .sort((one, other) => (one.path < other.path ? -1 : 1))
    .flatMap((file): readonly VariantFile[] => {
      const tree = readTree(file, tell)
      if (tree === undefined) return []
      const long = expand(tree, variantFile, { ...at, isVariant: true, base: kit })
      const read =
        long.kind === "map"
          ? readVariantFile(file.path, long, kitId?.kind === "scalar" ? kitId.written : undefined, axes, tell)
          : undefined
      return read === undefined ? [] : [read]
    })
  const combinations = combine(axes, variants, tell)
  const loaded = combinations.map((combination) => loadVariant(kit, combination))
  const specs = loaded.map(({ value, findings: own }, index): Spec => {
    const files = [kitSource.path, ...(combinations[index]?.values ?? []).map(({ file }) => file?.changes.span.file)]
    const shared = findings.filter(({ where }) => files.includes(where.file))
    return { ...value, told: [...new Set([...shared, ...own].flatMap(toldPath))] }
  })
  return { value: specs, findings: mergeFindings([...findings, ...loaded.flatMap((one) => one.findings)]) }
}

function toldPath({ severity, where }: Finding): readonly string[] {
  return severity === "error" && where.path.length > 0 ? [where.path.join("/")] : []
}

/** Gives the tree of one file, or undefined when its YAML is broken: what is made of half a file only misleads. */
function readTree(file: SpecFile, tell: Tell): TreeMap | undefined {
  const { text, isReadable } = decodeFile(file.path, file.bytes, tell)
  if (!isReadable) return undefined
  if (text.split("\n").every((line) => /^\s*(#.*|---\s*)?$/.test(line))) {
    const at = { file: file.path, line: 1, column: 1, endLine: 1, endColumn: 1 }
    tell(
      fault("file-empty", "error", {
        message: `\`${file.path}\` is empty`,
        at,
        fix: "write the kit, or remove the file",
      }),
    )
    return undefined
  }
  const { tree, brokenFromLine } = parseYaml(file.path, text, tell)
  if (brokenFromLine === undefined) return tree
  // What stands before the broken block is still checked for faults of its own.
  const isVariant = file.path.startsWith("variants/")
  const entries = tree.entries.filter((entry) => entry.keySpan.line < brokenFromLine)
  expand({ ...tree, entries }, isVariant ? variantFile : kitFile, { path: [], tell, isVariant, base: undefined })
  return undefined
}

function loadVariant(kit: TreeMap, { id, title, values }: Combination): Outcome<Omit<Spec, "told">> {
  const findings: Finding[] = []
  const tell: Tell = (one) => findings.push(one)
  const written: Written = new Map()
  let merged = kit
  for (const { file, axis } of values) {
    if (file !== undefined) merged = merge(merged, file.changes, kitFile, [], { tell, axis, written })
  }
  const placed = placeSteps(merged, tell)
  const { value, findings: issues } = validate(placed)
  const places = collectPlaces(placed)
  const axes = Object.fromEntries(values.map((one) => [one.axis, one.id]))
  const spec = buildSpec({ tree: placed, places }, value, { id, title, axes })
  return { value: spec, findings: [...findings, ...issues].map((one) => ({ ...one, variants: [id] })) }
}
