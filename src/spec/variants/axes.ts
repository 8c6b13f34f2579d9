/** Which variants a kit has: axes, their values, and the files that stand for them. */
import { nearNames } from "../../findings/near.ts"
import { rootSpan } from "../issue-words.ts"
import { childOf, type Scalar, type Span, type Tree, type TreeMap } from "../read/tree.ts"
import { idPattern } from "../schema/fields.ts"
import { fault, oneOfWords, quote, type Tell } from "../tell.ts"

/** More combinations than a maker can sell; a bad product of axes is told instead of built. */
const mostVariants = 400

/** A variant file in the long form, its header taken off. */
export type VariantFile = {
  readonly file: string
  readonly id: string
  readonly axis: string
  readonly title: string | undefined
  readonly changes: TreeMap
  readonly idSpan: Span
}

type AxisValue = {
  readonly axis: string
  readonly id: string
  readonly title: string
  readonly file: VariantFile | undefined
}

/** One variant: its values in the order of the axes. */
export type Combination = { readonly id: string; readonly title: string; readonly values: readonly AxisValue[] }

export type Axis = {
  readonly id: string
  readonly own: string | undefined
  readonly ownTitle: string | undefined
  readonly span: Span
}

/** Gives the axes of a kit; without `axes:` there is one, `variant`. */
export function readAxes(kit: TreeMap, tell: Tell): readonly Axis[] {
  const axes = childOf(kit, "axes")
  const variant = childOf(kit, "variant")
  if (axes?.kind !== "map" || axes.entries.length === 0) {
    const own = scalarOf(childOf(variant, "id"))
    return [
      {
        id: "variant",
        own: own?.written ?? "base",
        ownTitle: scalarOf(childOf(variant, "title"))?.written,
        span: own?.span ?? rootSpan(kit),
      },
    ]
  }
  if (variant !== undefined) {
    const message = "the kit has both `axes` and `variant`; only one can be"
    tell(
      fault("keys-exclude-each-other", "error", {
        message,
        at: variant.span,
        path: ["variant"],
        fix: "write the value of each axis in `axes`, and take `variant` out",
      }),
    )
  }
  return axes.entries.map((entry) => {
    const value = scalarOf(childOf(entry.value, "value"))
    const own = value === undefined || value.written === "none" ? undefined : value.written
    if (own !== undefined && !idPattern.test(own)) tellBadValue(own, value?.span ?? entry.keySpan, tell)
    return { id: entry.key, own, ownTitle: scalarOf(childOf(entry.value, "title"))?.written, span: entry.keySpan }
  })
}

function tellBadValue(id: string, at: Span, tell: Tell): void {
  const why = "an id begins with a small letter; letters, digits and hyphens follow"
  tell(
    fault("bad-id", "error", {
      message: `${quote(id)} is no id for a variant`,
      at,
      why,
      fix: "write small letters, digits and hyphens, a letter first",
    }),
  )
}

/** Splits the header off a variant file. Its axis is checked against those of the kit. */
export function readVariantFile(
  file: string,
  tree: TreeMap,
  kit: string | undefined,
  axes: readonly Axis[],
  tell: Tell,
): VariantFile | undefined {
  const stem = file.replace(/^.*\//, "").replace(/\.ya?ml$/i, "")
  const written = scalarOf(childOf(tree, "variant"))
  const kitId = scalarOf(childOf(tree, "kit"))
  if (kitId !== undefined && kit !== undefined && kitId.written !== kit) {
    const message = `\`${file}\` belongs to kit ${quote(kitId.written)}; this kit is \`${kit}\``
    tell(
      fault("variant-of-other-kit", "error", { message, at: kitId.span, path: ["kit"], fix: `write \`kit: ${kit}\`` }),
    )
  }
  const id = written?.written ?? stem
  const idSpan = written?.span ?? rootSpan(tree)
  if (!idPattern.test(id)) tellBadValue(id, idSpan, tell)
  const axisScalar = scalarOf(childOf(tree, "axis"))
  const [only] = axes.length === 1 ? axes : []
  const axis = axisScalar?.written ?? only?.id
  if (axis === undefined) {
    const message = `\`${file}\` does not say of which axis it is a value`
    tell(
      fault("missing-key", "error", {
        message,
        at: rootSpan(tree),
        path: ["axis"],
        fix: `write \`axis: ${axes[0]?.id ?? "…"}\``,
      }),
    )
    return undefined
  }
  if (!axes.some((one) => one.id === axis)) {
    const known = axes.map((one) => one.id)
    const near = nearNames(axis, known)
    const message = `\`${file}\` is a value of axis ${quote(axis)}, which the kit does not have`
    tell(
      fault("unknown-axis", "error", {
        message,
        at: axisScalar?.span ?? idSpan,
        path: ["axis"],
        fix: `write ${oneOfWords(near.length > 0 ? near : known)}`,
      }),
    )
    return undefined
  }
  const changes = {
    ...tree,
    entries: tree.entries.filter(({ key }) => !["kit", "variant", "axis", "title"].includes(key)),
  }
  return { file, id, axis, title: scalarOf(childOf(tree, "title"))?.written, changes, idSpan }
}

/** Every combination of the values of all axes: the kit's own value first, then files in the order of their names. */
export function combine(axes: readonly Axis[], files: readonly VariantFile[], tell: Tell): readonly Combination[] {
  const values = axes.map((axis) => valuesOf(axis, files, tell))
  const product = values.reduce((one, other) => one * other.length, 1)
  if (product > mostVariants) {
    const span = axes[0]?.span
    const message = `the axes give ${product} variants; at most ${mostVariants} are built`
    if (span !== undefined)
      tell(fault("too-many-variants", "error", { message, at: span, path: ["axes"], fix: "use fewer axes or values" }))
    return []
  }
  const combined = values.reduce<readonly (readonly AxisValue[])[]>(
    (rows, column) => rows.flatMap((row) => column.map((value) => [...row, value])),
    [[]],
  )
  return combined.map((row) => ({
    id: row.map((value) => value.id).join("+"),
    title: row.map((value) => value.title).join(", "),
    values: row,
  }))
}

function valuesOf(axis: Axis, files: readonly VariantFile[], tell: Tell): readonly AxisValue[] {
  const own: readonly AxisValue[] =
    axis.own === undefined
      ? []
      : [{ axis: axis.id, id: axis.own, title: axis.ownTitle ?? titleOf(axis.own), file: undefined }]
  const kept: AxisValue[] = [...own]
  for (const file of files.filter((one) => one.axis === axis.id)) {
    const earlier = kept.find((value) => value.id === file.id)
    if (earlier !== undefined) {
      const other = earlier.file?.file ?? "kit.yaml"
      const message = `\`${file.file}\` and \`${other}\` both stand for variant \`${file.id}\``
      const at = earlier.file?.idSpan ?? axis.span
      tell(
        fault("duplicate-variant", "error", {
          message,
          at: file.idSpan,
          path: ["variant"],
          fix: "give one of them another id",
          related: [{ message: "the other one", at }],
        }),
      )
      continue
    }
    kept.push({ axis: axis.id, id: file.id, title: file.title ?? titleOf(file.id), file })
  }
  if (kept.length === 0) {
    const message = `axis \`${axis.id}\` has no value: kit.yaml stands for none, and no file is of this axis`
    tell(
      fault("axis-without-value", "error", {
        message,
        at: axis.span,
        path: ["axes", axis.id],
        fix: `add a variant file with \`axis: ${axis.id}\``,
      }),
    )
  }
  return kept
}

function titleOf(id: string): string {
  const words = id.replaceAll("-", " ")
  return words.charAt(0).toUpperCase() + words.slice(1)
}

function scalarOf(tree: Tree | undefined): Scalar | undefined {
  return tree?.kind === "scalar" && tree.value !== null ? tree : undefined
}
