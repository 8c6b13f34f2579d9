/** Cables with their ends, sockets and passages. */
import type { CableSpec, PassageSpec, UnitSpec } from "../spec/types.ts"
import { placeOf, wordsOf } from "./desk.ts"
import { lookUpOrReport } from "./names.ts"
import { unitVector } from "./pieces.ts"
import type { Shop } from "./shop.ts"
import type { Cable, CableEnd, Passage, Socket } from "./types.ts"

/** A cable without its item reference. */
export type CableDraft = Omit<Cable, "itemReference">

/** Resolves a cable; passages and sockets that are not there are reported and left out. */
export function resolveCable(shop: Shop, spec: CableSpec): CableDraft {
  const via = spec.via.flatMap((name, index) => {
    const where = placeOf(shop, spec.path, "via", String(index))
    return lookUpOrReport(shop, ["passage"], name, spec.path, where)?.id ?? []
  })
  const ends = spec.ends.map((end): CableEnd => {
    const socket =
      end.connectedTo === undefined
        ? undefined
        : lookUpOrReport(shop, ["socket"], end.connectedTo, end.path, placeOf(shop, end.path, "connected"))
    return {
      id: `${spec.id}.${end.id}`,
      name: end.name ?? wordsOf(end.id),
      envelope: end.envelope,
      arrival:
        socket !== undefined
          ? { state: "connected", socket: socket.id }
          : end.isFixed
            ? { state: "fixed" }
            : { state: "free" },
    }
  })
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    lengthMm: spec.lengthMm,
    diameterMm: spec.diameterMm,
    slackMm: spec.slackMm,
    leastBendRadiusMm: spec.leastBendRadiusMm,
    ends,
    route: spec.route,
    via,
    isSupplied: spec.isSupplied,
    bag: spec.bag,
    isLive: spec.isLive,
  }
}

/** Resolves the sockets of a unit. */
export function resolveSockets(shop: Shop, unit: UnitSpec): readonly Socket[] {
  return unit.sockets.map((socket) => {
    const where = placeOf(shop, socket.path, "takes")
    const takes = socket.takes === undefined ? undefined : endNamed(shop, socket.takes, socket.path, where)
    return {
      id: `${unit.id}.${socket.id}`,
      path: socket.path,
      name: socket.name ?? wordsOf(socket.id),
      owner: unit.id,
      takes,
      at: socket.at,
    }
  })
}

/** Resolves a passage; one in a part that is not there is reported and left out. */
export function resolvePassage(shop: Shop, spec: PassageSpec): readonly Passage[] {
  const where = placeOf(shop, spec.path, "in")
  const owner = lookUpOrReport(shop, ["part", "instance", "unit", "frame"], spec.in, spec.path, where)
  if (owner === undefined) return []
  const { at } = spec
  return [
    {
      id: spec.id,
      path: spec.path,
      name: spec.name ?? wordsOf(spec.id),
      part: owner.id,
      opening: spec.opening,
      isClosed: spec.isClosed,
      clamps: spec.clamps,
      at: at === undefined ? undefined : { at: at.at, along: unitVector(at.along) ?? [0, 0, -1] },
    },
  ]
}

/** An end by its name, or by the name of a cable that has only one end that can be taken in hand. */
export function endNamed(
  shop: Shop,
  name: string,
  path: string,
  where: ReturnType<typeof placeOf>,
): string | undefined {
  const cable = shop.spec.cables.find(({ id }) => id === name)
  const loose = cable?.ends.filter(({ isFixed }) => !isFixed) ?? []
  const [only] = loose
  if (cable !== undefined && only !== undefined && loose.length === 1) return `${cable.id}.${only.id}`
  return lookUpOrReport(shop, ["end"], name, path, where)?.id
}
