/** Finds the map of steps in the text of a kit, and refuses where its steps cannot be told apart. */
import { type Document, isAlias, isMap, isScalar, type Node, type Pair, type YAMLMap } from "yaml"
import type { Finding } from "../../findings/types.ts"
import { type Composed, compose } from "../read/parse-yaml.ts"
import { quote } from "../tell.ts"
import { refuse, type Spot } from "./refuse.ts"

/** One entry of `steps`, as the package reads it. */
export type StepPair = {
  readonly id: string
  readonly key: Node
  readonly value: Node | undefined
  /** Where its key begins. */
  readonly spot: Spot
}

export type FoundSteps = Composed & {
  readonly map: YAMLMap
  readonly pairs: readonly StepPair[]
  /** Where `steps:` stands. */
  readonly spot: Spot
}

/** Gives the entries of `steps` in the order of writing. `text` has line feeds only and no byte order mark. */
export function findSteps(text: string, file: string): FoundSteps | { readonly refusal: Finding } {
  const start: Spot = { line: 1, column: 1 }
  const composed = compose(text)
  const spotOf = (offset: number, length = 1): Spot => {
    const { line, col } = composed?.counter.linePos(offset) ?? { line: 1, col: 1 }
    return { line: Math.max(1, line), column: Math.max(1, col), length }
  }
  const first = composed?.document.errors[0]
  if (composed === undefined || first !== undefined) {
    return refuse(file, spotOf(first?.pos[0] ?? 0), {
      message: `\`${file}\` cannot be read from here on, so its steps stay as they are`,
      fix: "mend what `kitleaf check` tells first",
    })
  }
  const pair = findPair(composed.document)
  const [keyAt = 0] = asNode(pair?.key)?.range ?? []
  const spot = pair === undefined ? start : spotOf(keyAt, "steps".length)
  const map = asNode(pair?.value)
  if (!isMap(map)) {
    const what = isAlias(map) ? `only \`*${map.source}\`, which stands for another place` : "no map of steps"
    return refuse(file, spot, {
      message: pair === undefined ? `\`${file}\` has no \`steps\`` : `\`steps\` holds ${what}`,
      fix: "write the steps themselves under `steps`",
    })
  }
  const pairs: StepPair[] = []
  for (const one of map.items) {
    const key = asNode(one.key)
    const [at = 0, end = 0] = key?.range ?? []
    const here = spotOf(at, end - at)
    if (!isScalar(key)) {
      return refuse(file, here, {
        message: "a step without a plain id stands here",
        fix: "write the id of the step",
      })
    }
    const id = typeof key.value === "string" ? key.value : (key.source ?? "")
    if (id === "<<") {
      return refuse(file, here, {
        message: "`<<` brings in steps from another place; their order is not written here",
        fix: "write the steps out",
      })
    }
    const twin = pairs.find((known) => known.id === id)
    if (twin !== undefined) {
      return refuse(file, here, {
        message: `step ${quote(id)} is written twice, first in line ${twin.spot.line}`,
        fix: "give one of them another id, or take it out",
      })
    }
    pairs.push({ id, key, value: asNode(one.value) ?? undefined, spot: here })
  }
  return { ...composed, map, pairs, spot }
}

function findPair({ contents }: Document): Pair | undefined {
  if (!isMap(contents)) return undefined
  return contents.items.find(({ key }) => isScalar(key) && key.value === "steps")
}

/** Types of the package say `unknown` for what stands in a collection; after parsing it is always a node or null. */
function asNode(value: unknown): Node | null {
  return (value ?? null) as Node | null
}
