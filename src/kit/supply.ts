/** Bags, and the counts of the box that the maker typed. */

import { readDesignation } from "../fasteners/designation.ts"
import { nearNames } from "../findings/near.ts"
import { oneOfWords, quote } from "../spec/tell.ts"
import { placeOf, reportUnknownName } from "./desk.ts"
import { knownNames, lookUpOrReport, meantPaths, type NameKind, unknownKey } from "./names.ts"
import type { Shop } from "./shop.ts"
import type { Bag, BoxCount } from "./types.ts"

/**
 * Gives the bags: those that are declared, or, when none is declared, those that things name, in the order of
 * writing. When bags are declared, a thing in another one is reported: most likely its name is mistyped.
 */
export function resolveBags(shop: Shop): readonly Bag[] {
  const { spec } = shop
  const declared = spec.bags.map(
    ({ id, path, name, side, isForOwnScrews }): Bag => ({ id, path, name: name ?? id, side, isForOwnScrews }),
  )
  const pieces = spec.hosts.flatMap((host) => (host.kind === "unit" ? host.pieces : []))
  const users = [spec.parts, pieces, spec.joints, spec.ties, spec.pads, spec.cables].flat()
  if (declared.some(({ isForOwnScrews }) => !isForOwnScrews)) {
    for (const { bag, path } of users) {
      if (bag !== undefined) lookUpOrReport(shop, ["bag"], bag, path, placeOf(shop, path, "bag"))
    }
    return declared
  }
  const implied = new Map<string, Bag>()
  for (const { bag, path } of users) {
    if (bag === undefined || implied.has(bag) || declared.some(({ id }) => id === bag)) continue
    implied.set(bag, { id: bag, path: `${path}/bag`, name: bag, side: undefined, isForOwnScrews: false })
  }
  return [...implied.values(), ...declared]
}

const packed: readonly NameKind[] = ["part", "tie", "pad", "cable"]

/** Gives the typed counts with the key of their item; what is no part, tie, pad, cable or fastener is reported. */
export function resolveBox(shop: Shop): readonly BoxCount[] {
  return shop.spec.box.flatMap(({ id, path, count }) => {
    for (const kind of packed) {
      const named = shop.names[kind].get(id)
      if (named !== undefined) return [{ item: `${kind}:${named}`, count, path }]
    }
    const read = readDesignation(id)
    if ("fastener" in read) return [{ item: `fastener:${read.fastener.designation}`, count, path }]
    const near = nearNames(id, knownNames(shop.names, packed))
    reportUnknownName(shop, "unknown-name", unknownKey(shop.names, packed, id), {
      meant: meantPaths(shop, packed, id),
      message: `the box holds ${quote(id)}, which nothing is called`,
      where: placeOf(shop, path),
      why: "an item of the box is a part, a tie, a pad, a cable, or a fastener by its designation",
      ...(near.length > 0
        ? { fix: `write ${oneOfWords(near)}` }
        : read.problem.fix === undefined
          ? {}
          : { fix: read.problem.fix }),
    })
    return []
  })
}
