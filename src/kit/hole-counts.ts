/** Compares the number of screws with the number of holes, in the clamped parts and in the thread. */
import { isTold } from "../findings/places.ts"
import type { Related } from "../findings/types.ts"
import { quote } from "../spec/tell.ts"
import type { JointSpec } from "../spec/types.ts"
import type { RawBore } from "./bores.ts"
import { called, placeOf, report } from "./desk.ts"
import type { Holes } from "./hole-search.ts"
import { joinWalls, type PlacedHole } from "./placed-holes.ts"
import type { Shop } from "./shop.ts"

/** Holes that agree with the count of the joint; undefined where they do not, or none are given. */
export type Agreed = {
  readonly holes: Holes | undefined
  readonly boreWalls: readonly PlacedHole[] | undefined
}

/** One number that should equal the number of screws. */
type Counted = {
  readonly told: string
  readonly count: number
  readonly path: string | undefined
  readonly others: string
}

/**
 * Holes that go through two walls of one piece count as one where that makes the number right. When the number of
 * screws differs from the holes of the joint, from those of its bore, or from both, that is one finding.
 */
export function reportCounts(shop: Shop, spec: JointSpec, holes: Holes | undefined, raw: RawBore): Agreed {
  const wanted = spec.screws.count
  const own = holes === undefined ? undefined : agree(holes.found, wanted)
  const bore = raw.walls.length === 0 ? undefined : agree(raw.walls, wanted)
  const wrong: Counted[] = []
  if (holes !== undefined) {
    const count = holes.typed.length + (own?.length ?? 0)
    const told = holes.owners.length === 0 ? "its `holes`" : holes.owners.map((id) => quote(id)).join(", ")
    // Where holes were sought in a direction that could not be read, their number says nothing.
    const isSure = spec.holes === undefined || !isTold(shop.spec.told, spec.holes.path)
    if (count !== wanted && isSure) wrong.push({ told, count, path: spec.holes?.path, others: holes.others })
  }
  const boreCount = bore?.length ?? raw.bore.points.length
  if (raw.holesPath !== undefined && boreCount !== wanted && !isTold(shop.spec.told, raw.holesPath)) {
    const told = raw.bore.owners.length === 0 ? "its bore" : raw.bore.owners.map((id) => quote(id)).join(", ")
    wrong.push({ told, count: boreCount, path: raw.holesPath, others: raw.others })
  }
  const [first] = wrong
  if (first !== undefined) reportWrong(shop, spec, first, wrong)
  const isOwnWrong = holes !== undefined && holes.typed.length + (own?.length ?? 0) !== wanted
  return {
    holes: holes === undefined || isOwnWrong ? undefined : { ...holes, found: own ?? [] },
    boreWalls: first === undefined || boreCount === wanted ? (bore ?? undefined) : undefined,
  }
}

function reportWrong(shop: Shop, spec: JointSpec, first: Counted, wrong: readonly Counted[]): void {
  const wanted = spec.screws.count
  const screws = wanted === 1 ? "1 screw" : `${wanted} screws`
  const related = wrong.flatMap(({ told, count, path }): readonly Related[] =>
    path === undefined ? [] : [{ message: `${holesInWords(count)} in ${told}`, where: placeOf(shop, path) }],
  )
  report(shop, "hole-count-differs", "error", {
    message: `${called(spec.path)} has ${screws}, but there ${first.count === 1 ? "is" : "are"} ${holesInWords(first.count)} in ${first.told}`,
    where: placeOf(shop, spec.screws.path),
    why: `each screw goes into a hole of its own${first.others === "" ? "" : `; round holes there: ${first.others}`}`,
    fix: `write ${first.count === 1 ? "1 screw" : `${first.count} screws`}, or name the right holes by their diameter or direction`,
    related,
    subjects: [spec.id],
  })
}

function agree(walls: readonly PlacedHole[], wanted: number): readonly PlacedHole[] {
  if (walls.length === wanted) return walls
  const joined = joinWalls(walls)
  return joined.length === wanted ? joined : walls
}

function holesInWords(count: number): string {
  return count === 1 ? "1 hole" : `${count} holes`
}
