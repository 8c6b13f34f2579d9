/** Judges whether what carries energy is isolated before somebody works on it. */
import { placeAt } from "../findings/places.ts"
import type { Act, Cable, Kit } from "../kit/types.ts"
import { describeAct } from "../sequence/index.ts"
import { trimmed } from "../units/print.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { type ActIndex, actsOn, explainByLeftOut, indexActs } from "./uses.ts"

/**
 * Finds work on powered units and live cables that no act isolates: connecting, taking out the unit's own screws,
 * opening or removing its pieces; also power that is verified or restored although no act takes it away.
 * Where there is an isolate that comes too late, the order proof tells it.
 */
export const liveWorkWithoutIsolate = defineRule({
  id: "live-work-without-isolate",
  severity: "error",
  source: "29 CFR 1910.147(d): isolate before the work",
  check: ({ kit, sequence }) => {
    const isExplained = explainByLeftOut(kit, sequence)
    const index = indexKit(kit)
    const carriers = carriersOf(kit, index).filter(({ id }) => !isIsolated(index, id))
    if (carriers.length === 0) return []
    const { works, switches } = findFirsts(kit, index)
    return carriers.flatMap(({ id, path }) => {
      const first = works.get(id) ?? switches.get(id)
      if (first === undefined || isExplained(["isolate"])) return []
      return [
        {
          message: fitMessage(
            `step \`${first.step}\` ${describeAct(first.act)}, and no step isolates \`${id}\``,
            `step \`${first.step}\` works on \`${id}\`, which no step isolates`,
          ),
          where: placeAt(kit.places, first.act.path),
          why: `\`${id}\` carries energy: work on it is safe only while that is off and stays off.`,
          fix: adviseOff(kit, index, id),
          related: [{ message: `\`${id}\` is declared here`, where: placeAt(kit.places, path) }],
          subjects: [id, first.step],
        },
      ]
    })
  },
})

/** What is still missing of isolating, waiting for the charge to go, verifying and switching on again. */
function adviseOff(kit: Kit, { acts }: Index, id: string): string {
  const minutes = kit.units.find((unit) => unit.id === id)?.dischargeMinutes
  const isMissing = (verb: "verify" | "restore"): boolean => actsOn(acts, [verb], [id]).length === 0
  const before = [
    `\`isolate: ${id}\``,
    ...(minutes === undefined ? [] : [`\`wait: ${trimmed(minutes)} min\``]),
    ...(isMissing("verify") ? [`\`verify: ${id}\``] : []),
  ]
  const last = before.length > 1 ? ` and ${before.at(-1) ?? ""}` : ""
  const list = `${before.slice(0, Math.max(1, before.length - 1)).join(", ")}${last}`
  return `Write ${list} in a step before it${isMissing("restore") ? `, and \`restore: ${id}\` at the end` : ""}.`
}

type Index = {
  readonly acts: ActIndex
  readonly cables: ReadonlyMap<string, Cable>
  /** By the id of an end. */
  readonly cableOf: ReadonlyMap<string, string>
  readonly poweredUnits: ReadonlySet<string>
  /** The unit, or other owner, that a socket belongs to. */
  readonly ownerOfSocket: ReadonlyMap<string, string>
  /** Units of own screws, and of pieces by the ids of part and copies. */
  readonly unitOfScrews: ReadonlyMap<string, string>
  readonly unitOfPiece: ReadonlyMap<string, string>
}

function indexKit(kit: Kit): Index {
  // Of several things with one name the first one counts.
  const first = <Value>(pairs: readonly (readonly [string, Value])[]): ReadonlyMap<string, Value> =>
    new Map(pairs.toReversed())
  const pieces = first(
    kit.parts.flatMap(({ id, instances, ownedBy }) => [id, ...instances].map((one) => [one, ownedBy] as const)),
  )
  const unitOfPiece = new Map([...pieces].flatMap(([id, unit]) => (unit === undefined ? [] : [[id, unit] as const])))
  return {
    acts: indexActs(kit),
    cables: first(kit.cables.map((cable) => [cable.id, cable])),
    cableOf: first(kit.cables.flatMap(({ id, ends }) => ends.map((end) => [end.id, id] as const))),
    poweredUnits: new Set(kit.units.filter(({ isPowered }) => isPowered).map(({ id }) => id)),
    ownerOfSocket: first(kit.sockets.map(({ id, owner }) => [id, unitOfPiece.get(owner) ?? owner])),
    unitOfScrews: first(kit.ownJoints.map(({ id, unit }) => [id, unit])),
    unitOfPiece,
  }
}

/** Units and cables that carry energy, by their own word or because an act verifies or restores their power. */
function carriersOf(kit: Kit, { acts }: Index): readonly { readonly id: string; readonly path: string }[] {
  const isSwitched = (id: string): boolean => actsOn(acts, ["verify", "restore"], [id]).length > 0
  return [
    ...kit.units.filter(({ id, isPowered }) => isPowered || isSwitched(id)),
    ...kit.cables.filter(({ id, isLive }) => isLive || isSwitched(id)),
  ]
}

/** A live cable is also made safe by isolating the unit that it goes to; a unit that carries energy is told of by itself. */
function isIsolated({ acts, cables, ownerOfSocket, poweredUnits }: Index, id: string): boolean {
  const cable = cables.get(id)
  const sockets = (cable?.ends ?? []).flatMap((end) => [
    ...actsOn(acts, ["connect"], [end.id]).flatMap(({ to }) => to ?? []),
    ...(end.arrival.state === "connected" ? [end.arrival.socket] : []),
  ])
  const units = sockets.flatMap((socket) => ownerOfSocket.get(socket) ?? [])
  if (cable !== undefined && units.some((unit) => poweredUnits.has(unit))) return true
  return actsOn(acts, ["isolate"], [id, ...units]).length > 0
}

type StepAct = { readonly step: string; readonly act: Act }

/** The first work on each thing, and the first act that verifies or restores its power. */
function findFirsts(
  kit: Kit,
  index: Index,
): { readonly works: ReadonlyMap<string, StepAct>; readonly switches: ReadonlyMap<string, StepAct> } {
  const works = new Map<string, StepAct>()
  const switches = new Map<string, StepAct>()
  for (const { id: step, acts } of kit.steps)
    for (const act of acts) {
      for (const id of workedOn(index, act)) if (!works.has(id)) works.set(id, { step, act })
      const isSwitch = act.verb === "restore" || act.verb === "verify"
      if (isSwitch && !switches.has(act.target)) switches.set(act.target, { step, act })
    }
  return { works, switches }
}

/** Cable and unit that an act connects, the unit whose screws it takes out or whose piece it opens or takes off. */
function workedOn(index: Index, { verb, target, to }: Act): readonly string[] {
  if (verb === "connect" || verb === "disconnect")
    return [index.cableOf.get(target), to === undefined ? undefined : index.ownerOfSocket.get(to)].filter(
      (id) => id !== undefined,
    )
  if (verb === "unscrew") return [index.unitOfScrews.get(target)].filter((id) => id !== undefined)
  if (verb !== "open" && verb !== "remove") return []
  const unit = index.unitOfPiece.get(target)
  return unit === undefined || unit === target ? [] : [unit]
}
