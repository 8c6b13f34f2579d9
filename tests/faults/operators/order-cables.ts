/** Cables and power in the wrong order. */
import type { Kit } from "../../../src/kit/types.ts"
import { nameAct, pairsOf, touchedBy, type Written, withVerb, writtenActs } from "../acts.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { deleteAct, moveAct, pathNow } from "../draft.ts"
import { marks, type Operator, type Plant } from "../plant.ts"

/** An end is connected before it is fed through a closed opening. */
const connectBeforeFeed: Operator = {
  name: "connect-before-feed",
  faults: ["F04", "F05"],
  find: (variant) => {
    const { kit } = variant.proof
    return pairsOf(writtenActs(variant), (feed, connect) => {
      const isClosed = kit.passages.some(({ id, isClosed }) => id === feed.act.through && isClosed)
      return (
        feed.act.verb === "feed" && connect.act.verb === "connect" && feed.act.target === connect.act.target && isClosed
      )
    }).map(
      ([feed, connect]): Plant => ({
        site: `${nameAct(connect)} before ${nameAct(feed)}`,
        edit: (draft) => moveAct(draft, feed.origin, "behind", connect.origin),
        expect: (draft) => [
          [
            ...marks("needs-something-later", pathNow(draft, connect.origin)),
            ...marks("taken-away-before", pathNow(draft, feed.origin)),
          ],
        ],
      }),
    )
  },
}

/** An end is fed through an opening of a part that is not there yet. */
const feedBeforePart: Operator = {
  name: "feed-before-part",
  faults: ["F08"],
  find: (variant) => {
    const { kit } = variant.proof
    return pairsOf(writtenActs(variant), (place, feed) => {
      const part = kit.passages.find(({ id }) => id === feed.act.through)?.part
      return place.act.verb === "place" && feed.act.verb === "feed" && place.act.target === part
    }).map(
      ([place, feed]): Plant => ({
        site: `${nameAct(feed)} before ${nameAct(place)}`,
        edit: (draft) => moveAct(draft, feed.origin, "before", place.origin),
        // Out of its turn along the cable it bars the other openings, too.
        expect: (draft) => [
          [
            ...marks("needs-something-later", pathNow(draft, feed.origin)),
            ...marks("taken-away-before", ...otherFeeds(variant, feed).map(({ origin }) => pathNow(draft, origin))),
          ],
        ],
      }),
    )
  },
}

function otherFeeds(variant: CleanVariant, feed: Written): readonly Written[] {
  return withVerb(writtenActs(variant), "feed").filter(
    ({ act, origin }) => act.target === feed.act.target && origin !== feed.origin,
  )
}

/** The power is taken off, or verified, only after the first work. */
const isolateTooLate: Operator = {
  name: "isolate-after-work",
  faults: ["F15"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return withVerb(acts, "isolate", "verify").flatMap((off): readonly Plant[] => {
      const work = acts.find((one) => one.file === off.file && isWorkOn(kit, one, off.act.target))
      const verify = acts.find(({ act }) => act.verb === "verify" && act.target === off.act.target)
      if (work === undefined || work.order < off.order) return []
      return [
        {
          site: `${nameAct(off)} behind ${nameAct(work)}`,
          edit: (draft) => {
            moveAct(draft, off.origin, "behind", work.origin)
            if (off.act.verb === "isolate" && verify !== undefined) moveAct(draft, verify.origin, "behind", off.origin)
          },
          expect: (draft) => [marks("needs-something-later", pathNow(draft, work.origin))],
        },
      ]
    })
  },
}

/** Nothing takes the power off. */
const isolateMissing: Operator = {
  name: "isolate-missing",
  faults: ["F15"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return withVerb(acts, "isolate").flatMap((off): readonly Plant[] => {
      const work = acts.filter((one) => isWorkOn(kit, one, off.act.target))
      if (work.length === 0) return []
      return [
        {
          site: nameAct(off),
          edit: (draft) => deleteAct(draft, off.origin),
          expect: (draft) => [marks("live-work-without-isolate", pathNow(draft, work[0]?.origin ?? ""))],
        },
      ]
    })
  },
}

/** The power comes back before the work is complete. */
const restoreTooEarly: Operator = {
  name: "restore-before-work",
  faults: ["F16"],
  find: (variant) => {
    const { kit } = variant.proof
    return pairsOf(writtenActs(variant), (work, restore) => {
      if (restore.act.verb !== "restore") return false
      const part = kit.parts.find(({ id, instances }) => id === work.act.target || instances.includes(work.act.target))
      const isCover = work.act.verb === "place" && part !== undefined && part.covers.length > 0 && !part.opens
      return isCover || ["tighten", "connect", "close"].includes(work.act.verb)
    }).map(
      ([work, restore]): Plant => ({
        site: `${nameAct(restore)} before ${nameAct(work)}`,
        edit: (draft) => moveAct(draft, restore.origin, "before", work.origin),
        expect: (draft) => [
          [
            ...marks("needs-something-later", pathNow(draft, restore.origin)),
            ...marks("taken-away-before", ...(work.act.verb === "connect" ? [pathNow(draft, work.origin)] : [])),
          ],
        ],
      }),
    )
  },
}

function isWorkOn(kit: Kit, { act }: Written, id: string): boolean {
  if (act.verb === "connect" || act.verb === "disconnect") return touchedBy(kit, act).includes(id)
  if (act.verb === "unscrew") return kit.ownJoints.some((own) => own.id === act.target && own.unit === id)
  const part = kit.parts.find((one) => one.id === act.target || one.instances.includes(act.target))
  return (act.verb === "open" || act.verb === "remove") && part?.ownedBy === id
}

/** All operators on the order of cables and power. */
export const cableOrderOperators: readonly Operator[] = [
  connectBeforeFeed,
  feedBeforePart,
  isolateTooLate,
  isolateMissing,
  restoreTooEarly,
]
