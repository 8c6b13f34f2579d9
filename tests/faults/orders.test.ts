/** Valid reorderings of every kit are silent, invalid ones are told, and what is told is repaired in as few moves as were made. */
import { describe, expect, test } from "vitest"
import type { Proof } from "../../src/document/types.ts"
import { buildPlan, proveSequence, repairOrder } from "../../src/sequence/index.ts"
import { randomNumbers } from "../sequence/random.ts"
import { faultKitFolders, readCleanKit } from "./clean-kits.ts"
import { drawDoable, drawLinked, drawNear, judgeOrder, reorder, simulate } from "./orders.ts"

const isAll = process.env.KITLEAF_ALL === "1"
const seed = Number(process.env.KITLEAF_SEED ?? 20261125)
/** Reorderings of each kind in each kit, over all its variants. */
const most = isAll ? 2000 : 50

describe.each(faultKitFolders.map((folder) => ({ folder })))("$folder", ({ folder }) => {
  const { variants } = readCleanKit(folder)
  const share = Math.ceil(most / variants.length)
  const namesOf = ({ kit }: Proof, order: readonly number[]): string =>
    `${kit.variant.id}: ${order.map((index) => kit.steps[index]?.id ?? "").join(" ")} (seed ${seed})`

  test(`orders that keep all links are silent, and the simulation agrees`, () => {
    const random = randomNumbers(seed)
    const wrong = variants.flatMap(({ proof }) =>
      Array.from({ length: share }, () => drawLinked(proof, random))
        .filter((order) => judgeOrder(proof, order).length > 0 || !simulate(proof, order))
        .map((order) => namesOf(proof, order)),
    )
    expect(wrong).toEqual([])
  }, 1_200_000)

  test("orders in which each step could be done are silent when all is reached, and told when not", () => {
    const random = randomNumbers(seed + 1)
    const wrong = variants.flatMap(({ proof }) =>
      Array.from({ length: share }, () => drawDoable(proof, random)).flatMap((order) => {
        if (order === undefined) return []
        const isRight = simulate(proof, order)
        return (judgeOrder(proof, order).length === 0) === isRight ? [] : [namesOf(proof, order)]
      }),
    )
    expect(wrong).toEqual([])
  }, 1_200_000)

  test("orders with one to three steps elsewhere are told exactly when the simulation rejects them", () => {
    const random = randomNumbers(seed + 2)
    const judged = variants.flatMap(({ proof }) =>
      Array.from({ length: share }, (_, index) => {
        const order = drawNear(proof.kit.steps.length, 1 + (index % 3), random)
        const isRight = simulate(proof, order)
        return { name: namesOf(proof, order), isRight, isSilent: judgeOrder(proof, order).length === 0 }
      }),
    )
    expect(judged.filter(({ isRight, isSilent }) => isRight !== isSilent)).toEqual([])
    expect(judged.some(({ isRight }) => !isRight)).toBe(true)
  }, 1_200_000)

  test("a step in the wrong place is put back by one move, two swapped ones by two", () => {
    const random = randomNumbers(seed + 3)
    const wrong = variants.slice(0, isAll ? 99 : 1).flatMap(({ proof }) => {
      const seeded = seedMoves(proof.kit.steps.length)
      const chosen = isAll ? seeded : seeded.filter(() => random() < 20 / seeded.length)
      return chosen.flatMap(({ order, moves }) => {
        const words = repairWords(proof, order, moves)
        return words === undefined ? [] : [`${words}; ${namesOf(proof, order)}`]
      })
    })
    expect(wrong).toEqual([])
  }, 1_200_000)
})

/** Every move of one step, and every swap of two. */
function seedMoves(count: number): readonly { readonly order: readonly number[]; readonly moves: number }[] {
  const all = Array.from({ length: count }, (_, index) => index)
  const moved = all.flatMap((from) =>
    all
      .filter((to) => to !== from)
      .map((to) => {
        const order = all.filter((index) => index !== from)
        order.splice(to, 0, from)
        return { order, moves: 1 }
      }),
  )
  const swapped = all.flatMap((one) =>
    all
      .filter((other) => other > one)
      .map((other) => ({
        order: all.map((index) => (index === one ? other : index === other ? one : index)),
        moves: 2,
      })),
  )
  return [...moved, ...swapped]
}

/** Says what is wrong about the repair of an order that is not valid; undefined when nothing is, or nothing is to repair. */
function repairWords({ kit, fit }: Proof, order: readonly number[], moves: number): string | undefined {
  const changed = reorder(kit, order)
  const sequence = proveSequence(changed, fit)
  if (sequence.faults.length === 0) return undefined
  const repair = repairOrder(buildPlan(changed, sequence))
  if (repair.kind !== "moved") return `repair says ${repair.kind}`
  const left = proveSequence(reorder(changed, repair.order), fit).faults
  if (left.length > 0) return `the repaired order still has ${left.length} faults`
  return repair.moves.length <= moves ? undefined : `${repair.moves.length} moves for ${moves}`
}
