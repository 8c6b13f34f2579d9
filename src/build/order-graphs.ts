/** Writes the links between the steps of one variant as a graph, over nothing that Kitleaf did not write. */
import { lstatSync, readFileSync, writeFileSync } from "node:fs"
import { renderOrderDot, renderOrderSvg } from "../sequence/index.ts"
import type { OrderOfVariants, OrderResult } from "./order-types.ts"

/** Stands in every such file, so that the next run knows it for its own. */
const mark = "written by kitleaf order"

type Format = { readonly render: (order: OrderOfVariants) => string; readonly comment: string }

const formats: Readonly<Record<"svg" | "dot", Format>> = {
  svg: {
    render: ({ plan, report, steps }) =>
      renderOrderSvg(plan, report, new Map(steps.map(({ id, title }) => [id, title]))),
    comment: `<!-- ${mark} -->`,
  },
  dot: { render: ({ plan, report }) => renderOrderDot(plan, report), comment: `// ${mark}` },
}

/**
 * Writes the graph into the files named; gives their names, or why none was written: variants whose graphs differ, none at all, or a
 * file that stands there and is not one of these.
 */
export function writeOrderGraphs(
  { orders }: OrderResult,
  files: { readonly svg?: string; readonly dot?: string },
): { readonly files: readonly string[] } | { readonly problem: string } {
  const wanted = (["svg", "dot"] as const).flatMap((format) => {
    const file = files[format]
    return file === undefined ? [] : [{ file, ...formats[format] }]
  })
  if (wanted.length === 0) return { files: [] }
  const [order, other] = orders
  if (order === undefined) return { files: [] }
  if (other !== undefined) {
    const [one = "", two = ""] = [order.variants[0], other.variants[0]]
    return { problem: `The graphs of \`${one}\` and \`${two}\` differ; name one with \`--variant\`.` }
  }
  const foreign = wanted.find(({ file }) => isForeign(file))
  if (foreign !== undefined) {
    return { problem: `\`${foreign.file}\` is there already and was not written by kitleaf; name another file.` }
  }
  for (const { file, render, comment } of wanted) writeFileSync(file, `${render(order).trimEnd()}\n${comment}\n`)
  return { files: wanted.map(({ file }) => file) }
}

function isForeign(file: string): boolean {
  const facts = lstatSync(file, { throwIfNoEntry: false })
  if (facts === undefined) return false
  return !facts.isFile() || !readFileSync(file, "utf8").includes(mark)
}
