/** Which cables the acts move, and through which passages: one index instead of a search for each question. */
import type { Act, Cable, Kit } from "../kit/types.ts"

export type CableMoves = {
  /** `feed` and `withdraw` of a cable through a passage, in the order of the steps; by `cable passage`. */
  readonly moves: ReadonlyMap<string, readonly Act[]>
  /** Cables that have a passage on their way, or that an act moves through it. */
  readonly cablesByPassage: ReadonlyMap<string, readonly Cable[]>
  /** Passages on the way of a cable, then those that only an act moves it through. */
  readonly passagesByCable: ReadonlyMap<string, readonly string[]>
  /** Cables of which an act takes an end. */
  readonly handled: ReadonlySet<string>
}

/** Indexes the acts on the ends of cables. Linear in their number. */
export function indexMoves(kit: Kit, acts: readonly Act[], cableByEnd: ReadonlyMap<string, Cable>): CableMoves {
  const moves = new Map<string, Act[]>()
  const passagesByCable = new Map(kit.cables.map(({ id, via }) => [id, [...new Set(via)]]))
  const handled = new Set<string>()
  for (const act of acts) {
    const cable = cableByEnd.get(act.target)?.id
    if (cable === undefined) continue
    if (handledBy.has(act.verb)) handled.add(cable)
    if (act.through === undefined || (act.verb !== "feed" && act.verb !== "withdraw")) continue
    const key = `${cable} ${act.through}`
    const known = moves.get(key)
    if (known !== undefined) known.push(act)
    else {
      moves.set(key, [act])
      const passages = passagesByCable.get(cable)
      if (passages?.includes(act.through) === false) passages.push(act.through)
    }
  }
  const cablesByPassage = new Map<string, Cable[]>()
  for (const cable of kit.cables)
    for (const passage of passagesByCable.get(cable.id) ?? []) {
      const known = cablesByPassage.get(passage)
      if (known === undefined) cablesByPassage.set(passage, [cable])
      else known.push(cable)
    }
  return { moves, cablesByPassage, passagesByCable, handled }
}

const handledBy: ReadonlySet<Act["verb"]> = new Set(["feed", "withdraw", "connect", "disconnect"])
