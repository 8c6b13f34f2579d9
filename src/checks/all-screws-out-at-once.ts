/** Judges whether screws of a unit that hold something inside it as well are changed one at a time. */
import { placeAt } from "../findings/places.ts"
import type { OwnJoint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import type { Action } from "../sequence/types.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/**
 * Finds the act after which more than one screw is out of a bore of a unit whose own screws also hold something
 * (`also-holds`), while that is not taken off. A single screw cannot be changed without that, and is not told.
 */
export const allScrewsOutAtOnce = defineRule({
  id: "all-screws-out-at-once",
  severity: "error",
  source: "the order proof",
  check: ({ kit, sequence }) =>
    kit.ownJoints.flatMap((own) => {
      const { id, alsoHolds, count, path } = own
      if (alsoHolds === undefined || count < 2 || isTakenOff(kit, alsoHolds)) return []
      const most = findMostOut(kit, sequence.actions, own)
      if (most === undefined) return []
      const { action: last, out } = most
      const many = out < count ? `${out} of ${count}` : `all ${count}`
      const held = alsoHolds.trim().replace(/\.$/, "")
      const [other] = kit.joints.filter(({ bore }) => bore.id === own.bore)
      const put = other === undefined ? id : other.id
      return [
        {
          message: fitMessage(
            `${many} screws \`${id}\` are out at once in step \`${last.step}\`, and they hold ${held}`,
            `${many} screws \`${id}\` are out at once in step \`${last.step}\``,
          ),
          where: placeAt(kit.places, last.act.path),
          why:
            out < count
              ? `They also hold ${held}, so never more than one may be out.`
              : `They also hold ${held}, which falls or shifts inside when the last screw comes out.`,
          fix: `Change one screw at a time: write \`unscrew: 1 x ${id}\` and \`start: 1 x ${put}\` by turns, ${count} times.`,
          related: [
            { message: `what else these screws hold is written here`, where: placeAt(kit.places, path, "also-holds") },
          ],
          subjects: [id, last.step],
        },
      ]
    }),
})

/** The act after which most screws are out, when it is more than one; screws of the kit that go into the same bore hold as well. */
function findMostOut(
  kit: Kit,
  actions: readonly Action[],
  own: OwnJoint,
): { readonly action: Action; readonly out: number } | undefined {
  let most: { readonly action: Action; readonly out: number } | undefined
  const inBore = new Map([
    [own.id, own.count],
    ...kit.joints
      .filter(({ bore }) => bore.id === own.bore)
      .map(({ id, count }): readonly [string, number] => [id, count]),
  ])
  let left = own.count
  for (const action of actions) {
    const { target, count } = action.act
    const all = inBore.get(target)
    if (all === undefined) continue
    if (action.verb === "start") left += count ?? all
    if (action.verb === "unscrew") left -= count ?? all
    const out = Math.min(own.count, own.count - left)
    if (action.verb === "unscrew" && out > Math.max(1, most?.out ?? 0)) most = { action, out }
  }
  return most
}

/** The words name a piece of a unit or a part that some act takes off. */
function isTakenOff(kit: Kit, words: string): boolean {
  const plain = (text: string): string =>
    text
      .trim()
      .toLowerCase()
      .replace(/^(?:the|der|die|das) /, "")
      .replace(/\.$/, "")
  const named = kit.parts.filter(({ id, name }) => [id, name].some((one) => plain(one) === plain(words)))
  const ids = new Set(named.flatMap(({ id, instances }) => [id, ...instances]))
  return kit.steps.some(({ acts }) => acts.some(({ verb, target }) => verb === "remove" && ids.has(target)))
}
