/** Judges whether what carries energy is isolated before somebody works on it. */
import { placeAt } from "../findings/places.ts"
import type { Act, Kit } from "../kit/types.ts"
import { describeAct } from "../sequence/index.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { actsOn, explainByLeftOut } from "./uses.ts"

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
    return carriersOf(kit).flatMap(({ id, path }) => {
      if (isIsolated(kit, id)) return []
      const acts = kit.steps.flatMap(({ id: step, acts }) => acts.map((act) => ({ step, act })))
      const first =
        acts.find(({ act }) => isWorkOn(kit, act, id)) ??
        acts.find(({ act }) => (act.verb === "restore" || act.verb === "verify") && act.target === id)
      if (first === undefined || isExplained(["isolate"])) return []
      return [
        {
          message: fitMessage(
            `step \`${first.step}\` ${describeAct(first.act)}, and no step isolates \`${id}\``,
            `step \`${first.step}\` works on \`${id}\`, which no step isolates`,
          ),
          where: placeAt(kit.places, first.act.path),
          why: `\`${id}\` carries energy: work on it is safe only while that is off and stays off.`,
          fix: `Write \`isolate: ${id}\` and \`verify: ${id}\` in a step before it, and \`restore: ${id}\` at the end.`,
          related: [{ message: `\`${id}\` is declared here`, where: placeAt(kit.places, path) }],
          subjects: [id, first.step],
        },
      ]
    })
  },
})

/** Units and cables that carry energy, by their own word or because an act verifies or restores their power. */
function carriersOf(kit: Kit): readonly { readonly id: string; readonly path: string }[] {
  const isSwitched = (id: string): boolean => actsOn(kit, ["verify", "restore"], [id]).length > 0
  return [
    ...kit.units.filter(({ id, isPowered }) => isPowered || isSwitched(id)),
    ...kit.cables.filter(({ id, isLive }) => isLive || isSwitched(id)),
  ]
}

/** A live cable is also made safe by isolating the unit that it goes to; a unit that carries energy is told of by itself. */
function isIsolated(kit: Kit, id: string): boolean {
  const cable = kit.cables.find((one) => one.id === id)
  const sockets = (cable?.ends ?? []).flatMap((end) => [
    ...actsOn(kit, ["connect"], [end.id]).flatMap(({ to }) => to ?? []),
    ...(end.arrival.state === "connected" ? [end.arrival.socket] : []),
  ])
  const units = sockets.flatMap((socket) => ownerOf(kit, kit.sockets.find((one) => one.id === socket)?.owner) ?? [])
  if (cable !== undefined && kit.units.some((unit) => unit.isPowered && units.includes(unit.id))) return true
  return actsOn(kit, ["isolate"], [id, ...units]).length > 0
}

function isWorkOn(kit: Kit, { verb, target, to }: Act, id: string): boolean {
  if (verb === "connect" || verb === "disconnect") {
    const isCable = kit.cables.some((cable) => cable.id === id && cable.ends.some((end) => end.id === target))
    return isCable || ownerOf(kit, kit.sockets.find((socket) => socket.id === to)?.owner) === id
  }
  if (verb === "unscrew") return kit.ownJoints.some((own) => own.id === target && own.unit === id)
  return (verb === "open" || verb === "remove") && target !== id && ownerOf(kit, target) === id
}

/** The unit a part of it belongs to, else the id itself. */
function ownerOf(kit: Kit, id: string | undefined): string | undefined {
  const part = kit.parts.find((one) => one.id === id || one.instances.some((instance) => instance === id))
  return part?.ownedBy ?? id
}
