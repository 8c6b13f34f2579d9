/**
 * Time that must pass: adhesive pads and locked threads cure, units discharge once they are isolated. Only acts that
 * wait count, each for all that rests at the time; other work in between is not counted, since nobody knows its length.
 */
import type { Act, Kit } from "../kit/types.ts"
import { atLeast } from "../units/compare.ts"

/** A thing that rests, from the acts of `verb` on. */
export type Rest = {
  readonly id: string
  readonly verb: "stick" | "tighten" | "isolate"
  readonly minutes: number
  readonly path: string
}

/** What one act of waiting does: the rests it ends, those it only goes on with, and those it is meant for. */
export type Pause = {
  readonly ends: readonly RestPart[]
  readonly goesOn: readonly RestPart[]
  readonly isFor: readonly Rest[]
}

/** What one act of waiting adds. `number` counts the acts of waiting that one rest is made of, from 1, over all times that the thing begins to rest. */
export type RestPart = { readonly rest: Rest; readonly number: number; readonly isFirst: boolean }

export type Rests = {
  /** By verb and id: a pad and a joint may have one name. */
  readonly byKey: ReadonlyMap<string, Rest>
  readonly pauses: ReadonlyMap<Act, Pause>
}

/** Pads and joints that cure and units that discharge, with what each act of waiting does for them in the order of the steps as written. */
export function findRests(kit: Kit): Rests {
  const all: readonly Rest[] = [
    ...kit.pads.flatMap(({ id, path, cureMinutes }) => restOf(id, "stick", cureMinutes, path)),
    ...kit.joints.flatMap(({ id, path, cureMinutes }) => restOf(id, "tighten", cureMinutes, path)),
    ...kit.units.flatMap(({ id, path, dischargeMinutes }) => restOf(id, "isolate", dischargeMinutes, path)),
  ]
  const byKey = new Map(all.map((rest) => [`${rest.verb} ${rest.id}`, rest]))
  const parts = new Set(kit.parts.map(({ id }) => id))
  const pauses = new Map<Act, Pause>()
  const running = new Map<Rest, { minutes: number; isFirst: boolean; readonly step: number }>()
  const counted = new Map<Rest, number>()
  const idle: {
    readonly act: Act
    readonly named: Rest | undefined
    readonly minutes: number
    readonly began: number
  }[] = []
  const begins: Rest[] = []
  for (const [step, { acts }] of kit.steps.entries())
    for (const act of acts) {
      // To place a pad is to stick it on.
      const verb = act.verb === "place" && !parts.has(act.target) ? "stick" : act.verb
      const begun = byKey.get(`${verb} ${act.target}`)
      if (begun !== undefined) {
        running.set(begun, { minutes: 0, isFirst: true, step })
        begins.push(begun)
      }
      if (act.verb !== "wait") continue
      const here = [...running].filter(([, { step: begunIn }]) => begunIn === step).map(([rest]) => rest)
      const named = byKey.get(`stick ${act.target}`) ?? byKey.get(`tighten ${act.target}`)
      const isEarly = named === undefined ? running.size === 0 : !running.has(named)
      if (isEarly && act.minutes !== undefined) idle.push({ act, named, minutes: act.minutes, began: begins.length })
      const isFor = named !== undefined ? [named] : here.length > 0 ? here : [...running.keys()]
      const ends: RestPart[] = []
      const goesOn: RestPart[] = []
      for (const [rest, state] of running) {
        if (act.minutes === undefined) continue
        state.minutes += act.minutes
        const number = (counted.get(rest) ?? 0) + 1
        counted.set(rest, number)
        const part = { rest, number, isFirst: state.isFirst }
        state.isFirst = false
        if (!atLeast(state.minutes, rest.minutes)) goesOn.push(part)
        else {
          ends.push(part)
          running.delete(rest)
        }
      }
      pauses.set(act, { ends, goesOn, isFor })
    }
  // A pause that comes before what it is for, or before all it could be for, stands too early for a thing that nothing else waits for.
  for (const { act, named, minutes, began } of idle) {
    const isOpen = (rest: Rest): boolean => running.get(rest)?.isFirst === true
    const next = begins.slice(began).find((rest) => isOpen(rest) && (named === undefined || rest === named))
    if (next === undefined) continue
    const part = { rest: next, number: (counted.get(next) ?? 0) + 1, isFirst: true }
    const isEnough = atLeast(minutes, next.minutes)
    pauses.set(act, { ends: isEnough ? [part] : [], goesOn: isEnough ? [] : [part], isFor: [next] })
  }
  return { byKey, pauses }
}

function restOf(id: string, verb: Rest["verb"], minutes: number | undefined, path: string): readonly Rest[] {
  return minutes === undefined ? [] : [{ id, verb, minutes, path }]
}
