/** What the box holds, derived: joints x copies + spares, nuts and washers too, parts, ties, pads, supplied cables. */
import type { Fastener } from "../fasteners/types.ts"
import type { Kit } from "../kit/types.ts"
import type { BoxItem, LookAlike } from "./types.ts"

/**
 * Computes the lines of the box: one for each kind of part, tie, pad and cable, and one for each fastener and bag.
 * Lines are in the order of their item references, fasteners of one designation in the order of their bags.
 */
export function computeBox(kit: Kit): readonly BoxItem[] {
  const parts = kit.parts
    .filter((part) => part.ownedBy === undefined)
    .map((part): BoxItem => {
      const { id, itemReference, copies, spare, bag } = part
      return { ...bare, item: `part:${id}`, kind: "part", id, itemReference, count: copies, spare, bag, uses: [] }
    })
  const ties = kit.ties.map(({ id, itemReference, count, spare, bag }): BoxItem => {
    return { ...bare, item: `tie:${id}`, kind: "tie", id, itemReference, count, spare, bag, uses: [id] }
  })
  const pads = kit.pads.map(({ id, itemReference, count, spare, bag }): BoxItem => {
    return { ...bare, item: `pad:${id}`, kind: "pad", id, itemReference, count, spare, bag, uses: [id] }
  })
  const cables = kit.cables
    .filter(({ isSupplied }) => isSupplied)
    .map(({ id, itemReference, bag }): BoxItem => {
      return {
        ...bare,
        item: `cable:${id}`,
        kind: "cable",
        id,
        itemReference: itemReference ?? 0,
        count: 1,
        spare: 0,
        bag,
        uses: [id],
      }
    })
  const items = [...parts, ...fastenersOf(kit), ...ties, ...pads, ...cables]
  return items.sort(
    (one, other) =>
      one.itemReference - other.itemReference ||
      compare(one.item, other.item) ||
      compare(one.bag ?? "", other.bag ?? ""),
  )
}

const bare = { id: undefined, fastener: undefined } as const

function compare(one: string, other: string): number {
  return one < other ? -1 : one > other ? 1 : 0
}

function fastenersOf(kit: Kit): readonly BoxItem[] {
  const lines = new Map<string, BoxItem>()
  const put = (fastener: Fastener | undefined, reference: number | undefined, joint: Kit["joints"][number]): void => {
    if (fastener === undefined) return
    const item = `fastener:${fastener.designation}`
    const key = JSON.stringify([item, joint.bag ?? ""])
    const earlier = lines.get(key)
    lines.set(key, {
      item,
      kind: "fastener",
      itemReference: reference ?? 0,
      id: undefined,
      fastener,
      count: (earlier?.count ?? 0) + joint.count,
      spare: (earlier?.spare ?? 0) + joint.spare,
      bag: joint.bag,
      uses: [...(earlier?.uses ?? []), joint.id],
    })
  }
  for (const joint of kit.joints) {
    put(joint.fastener, joint.itemReference, joint)
    put(joint.washer, joint.washerReference, joint)
    if (joint.bore.kind === "nut") put(joint.bore.fastener, joint.nutReference, joint)
  }
  return [...lines.values()]
}

/** Longest difference in length that a person overlooks, in mm (common practice, no source). */
const similarLengthMm = 4

/**
 * Finds pairs of screws in the box that a person confuses: same thread and nearly the same length, or same head and
 * drive and nearly the same length. Each pair once, in the order of the box.
 */
export function findLookAlikes(box: readonly BoxItem[]): readonly LookAlike[] {
  const screws = [
    ...new Map(box.flatMap(({ item, fastener }) => (fastener?.kind === "screw" ? [[item, fastener]] : []))).entries(),
  ]
  return screws.flatMap(([one, fastener], index) =>
    screws.slice(index + 1).flatMap(([other, second]): readonly LookAlike[] => {
      const difference = tellDifference(fastener, second)
      return difference === undefined ? [] : [{ one, other, difference }]
    }),
  )
}

function tellDifference(one: Fastener, other: Fastener): string | undefined {
  const lengthMm = Math.abs((one.lengthMm ?? 0) - (other.lengthMm ?? 0))
  if (lengthMm > similarLengthMm) return undefined
  const isSameThread = one.diameterMm === other.diameterMm && one.pitchMm === other.pitchMm
  const isSameLook =
    one.head === other.head && one.drive?.kind === other.drive?.kind && one.drive?.size === other.drive?.size
  if (!isSameThread && !isSameLook) return undefined
  if (isSameThread && lengthMm > 0) return `lengths differ by ${lengthMm} mm`
  if (isSameThread && !isSameLook) return "same thread and length, other head or drive"
  if (isSameThread) return `classes ${one.propertyClass} and ${other.propertyClass} look alike`
  return `same head and drive, threads M${one.diameterMm} and M${other.diameterMm}`
}
