/** Which screws of a joint come, are tightened or go in each step, when a step does only some of them: `start: 1 x foot`. */
import type { Act, Kit } from "../kit/types.ts"
import { stateAt } from "../sequence/index.ts"
import type { Sequence } from "../sequence/types.ts"

/** Numbers of the screws of one joint in one step, from 1 in the order of its points. */
export type FastenerWork = {
  /** In place before the step and after it. */
  readonly staying: readonly number[]
  readonly started: readonly number[]
  readonly tightened: readonly number[]
  readonly removed: readonly number[]
}

/** The work of one step, by joint; joints of which no screw is there or touched are left out. */
export type StepFasteners = ReadonlyMap<string, FastenerWork>

type Holes = { readonly count: number; readonly present: Set<number>; readonly tight: Set<number> }

/** Follows the screws of all joints through the steps; a count that an act does not tell means all of them. */
export function followFasteners(kit: Kit, sequence: Sequence): readonly StepFasteners[] {
  const arrived = stateAt(sequence, 0)?.jointsBefore ?? []
  const joints = new Map(
    [...kit.joints, ...kit.ownJoints].map(({ id, count }): readonly [string, Holes] => {
      const present = new Set(arrived.includes(id) ? numbersTo(count) : [])
      return [id, { count, present, tight: new Set(present) }]
    }),
  )
  return kit.steps.map(({ acts }) => {
    const work = new Map<string, FastenerWork>()
    for (const [id, holes] of joints) {
      const before = new Set(holes.present)
      const own = acts.filter(({ target }) => target === id)
      const done = own.map((act) => ({ verb: act.verb, numbers: doAct(act, holes) }))
      const of = (verb: Act["verb"]): readonly number[] => [
        ...new Set(done.flatMap((one) => (one.verb === verb ? one.numbers : []))),
      ]
      const [started, removed] = [of("start"), of("unscrew")]
      if (before.size + started.length === 0) continue
      const staying = [...before].filter((number) => !started.includes(number) && !removed.includes(number))
      work.set(id, { staying, started, tightened: of("tighten"), removed })
    }
    return work
  })
}

/** Does one act and gives the screws it does: the first ones that are still to be done. */
function doAct({ verb, count }: Act, { count: all, present, tight }: Holes): readonly number[] {
  const take = (numbers: readonly number[]): readonly number[] => numbers.slice(0, count ?? all)
  if (verb === "start") {
    const numbers = take(numbersTo(all).filter((number) => !present.has(number)))
    for (const number of numbers) present.add(number)
    return numbers
  }
  if (verb === "tighten") {
    const inOrder = numbersTo(all).filter((number) => present.has(number))
    const numbers = count === undefined ? inOrder : take(inOrder.filter((number) => !tight.has(number)))
    for (const number of numbers) tight.add(number)
    return numbers
  }
  if (verb === "unscrew") {
    const numbers = take(numbersTo(all).filter((number) => present.has(number)))
    for (const number of numbers) {
      present.delete(number)
      tight.delete(number)
    }
    return numbers
  }
  return []
}

function numbersTo(count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => index + 1)
}
