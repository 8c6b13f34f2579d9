import type { Fastener } from "../fasteners/types.ts"
import { placeAt } from "../findings/places.ts"
import type { Bore } from "../kit/joint-types.ts"
import { isSame } from "../units/compare.ts"
import { defineRule } from "./types.ts"

/** Finds screws whose thread is not the thread of the bore, nut or insert they go into. */
export const wrongThreadForBore = defineRule({
  id: "wrong-thread-for-bore",
  severity: "error",
  source: "ISO 261: threads of unlike diameter or pitch do not go together",
  check: ({ kit }) => {
    const joints = kit.joints.map(({ id, path, fastener, bore }) => ({ id, path, fastener, bore, what: "joint" }))
    const own = kit.ownJoints.flatMap(({ id, path, fastener, bore: boreId }) => {
      const bore = kit.bores.find((one) => one.id === boreId)
      return bore === undefined ? [] : [{ id, path, fastener, bore, what: "screws" }]
    })
    return [...joints, ...own].flatMap(({ id, path, fastener, bore, what }) => {
      const thread = threadOf(bore)
      if (thread === undefined || fits(fastener, thread)) return []
      const screw = fastener.isThreadForming ? `thread-forming M${fastener.diameterMm}` : nameThread(fastener)
      const message = `${what} \`${id}\`: the screws are ${screw}, the thread they go into is ${nameThread(thread)}`
      const cause = fastener.isThreadForming
        ? "a thread-forming screw spoils a thread that is there already"
        : "they would jam or not hold"
      return [
        {
          message,
          why: cause,
          fix: `Take screws with ${nameThread(thread)}, or correct the thread of \`${bore.id}\`.`,
          where: placeAt(kit.places, path, "screws"),
          related:
            bore.path === path
              ? []
              : [{ message: "the thread is told here", where: placeAt(kit.places, bore.path, "thread") }],
          subjects: [id],
        },
      ]
    })
  },
})

type Thread = { readonly diameterMm: number; readonly pitchMm: number }

function threadOf(bore: Bore): Thread | undefined {
  if (bore.kind === "pilot") return undefined
  return bore.fastener ?? bore.thread
}

function fits(fastener: Fastener, thread: Thread): boolean {
  if (fastener.isThreadForming) return false
  return isSame(fastener.diameterMm, thread.diameterMm) && isSame(fastener.pitchMm, thread.pitchMm)
}

function nameThread({ diameterMm, pitchMm }: Thread): string {
  return `M${diameterMm} x ${pitchMm}`
}
