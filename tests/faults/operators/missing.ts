/** Acts and steps that are missing. */
import type { Kit } from "../../../src/kit/types.ts"
import { meet, nameAct, partOf, touchedBy, type Written, withVerb, writtenActs } from "../acts.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { type Draft, deleteAct, pathNow } from "../draft.ts"
import { type Mark, marks, type Operator, type Plant } from "../plant.ts"

type Finder = (
  kit: Kit,
  gone: Written,
  others: readonly Written[],
  at: (one: Written) => string | undefined,
) => readonly Mark[]

/** Deletes one act of a kind; `expected` gives the marks of the finding. */
function missing(
  name: string,
  faults: readonly string[],
  isKind: (kit: Kit, one: Written) => boolean,
  expected: Finder,
): Operator {
  return {
    name,
    faults,
    find: (variant: CleanVariant) => {
      const acts = writtenActs(variant)
      const { kit } = variant.proof
      return acts
        .filter((one) => isKind(kit, one))
        .map(
          (gone): Plant => ({
            site: nameAct(gone),
            edit: (draft: Draft) => deleteAct(draft, gone.origin),
            // What the screws held is loose when the work is turned, or moved as a whole.
            allow: (draft: Draft) =>
              gone.act.verb === "tighten"
                ? marks(
                    "needs-something-later",
                    ...withVerb(acts, "turn", "place").map(({ origin }) => pathNow(draft, origin)),
                  )
                : [],
            expect: (draft: Draft) => [
              expected(
                kit,
                gone,
                acts.filter((one) => one !== gone),
                ({ origin }) => pathNow(draft, origin),
              ),
            ],
          }),
        )
    },
  }
}

const verbIs =
  (...verbs: readonly string[]) =>
  (_: Kit, { act }: Written): boolean =>
    verbs.includes(act.verb)
const isRemovable = (kit: Kit, { act }: Written): boolean => partOf(kit, act.target)?.ownedBy !== undefined

/** A part of the box is put nowhere: whoever screws or ties it misses it, or nobody does. */
const placeMissing = missing(
  "place-missing",
  ["F53"],
  (kit, one) => one.act.verb === "place" && partOf(kit, one.act.target) !== undefined && !isRemovable(kit, one),
  (kit, { act }, others, at) => {
    const users = others.filter((one) => usesPart(kit, one, act.target))
    const part = partOf(kit, act.target)
    return [
      ...marks("nobody-gives", ...users.map(at)),
      ...marks(["item-never-used", "supplied-too-many"], `parts/${part?.id ?? ""}`),
    ]
  },
)

/** A piece of the unit that came off does not go back on. */
const refitMissing = missing(
  "refit-missing",
  ["F22"],
  (kit, one) => one.act.verb === "place" && isRemovable(kit, one),
  (kit, { act }, others, at) => [
    ...marks(
      "goal-not-reached",
      ...others.filter((one) => one.act.verb === "remove" && meet(kit, one.act.target, act.target)).map(at),
    ),
    ...marks(["nobody-gives", "taken-away-before"], ...others.filter((one) => usesPart(kit, one, act.target)).map(at)),
  ],
)

/** Screws are in no step at all. */
const jointMissing: Operator = {
  name: "screws-in-no-step",
  faults: ["F24"],
  find: (variant) => {
    const acts = writtenActs(variant)
    return variant.proof.kit.joints.flatMap(({ id, path }): readonly Plant[] => {
      const own = withVerb(acts, "start", "tighten", "align").filter(({ act }) => act.target === id)
      if (own.length === 0) return []
      return [
        {
          site: id,
          edit: (draft) => {
            for (const { origin } of own) deleteAct(draft, origin)
          },
          expect: () => [marks("item-never-used", path)],
          // What the screws held is loose when the work is moved.
          allow: (draft) =>
            marks(
              ["needs-something-later", "nobody-gives"],
              ...withVerb(acts, "turn", "place").map(({ origin }) => pathNow(draft, origin)),
            ),
        },
      ]
    })
  },
}

/** Screws are tightened that nobody started. */
const startMissing = missing("start-missing", ["F53"], verbIs("start"), (_, { act }, others, at) =>
  marks(
    ["nobody-gives", "taken-away-before", "goal-not-reached"],
    ...others.filter((one) => one.act.target === act.target).map(at),
  ),
)

/** Screws are started and stay loose. */
const tightenMissing = missing("tighten-missing", ["F25"], verbIs("tighten"), (_, { act }, others, at) =>
  marks(
    "goal-not-reached",
    ...others.filter((one) => one.act.verb === "start" && one.act.target === act.target).map(at),
  ),
)

/** The unit's own screws stay in. */
const unscrewMissing = missing("unscrew-missing", ["F21"], verbIs("unscrew"), (kit, { act }, others, at) => {
  const own = kit.ownJoints.find(({ id }) => id === act.target)
  const users = others.filter((one) => {
    const joint = kit.joints.find(({ id }) => id === one.act.target)
    const isInBore = one.act.verb === "start" && joint !== undefined && joint.bore.id === own?.bore
    const isPiece = one.act.verb === "remove" && `${own?.unit ?? ""}.${one.act.target}` === act.target
    return isInBore || isPiece || (one.act.target === act.target && one.act.verb !== "tighten")
  })
  return marks(["nobody-gives", "taken-away-before"], ...users.map(at))
})

/** A cover of the unit stays on. */
const removeMissing = missing("remove-missing", ["F21"], verbIs("remove"), (kit, { act }, others, at) => {
  const covers = partOf(kit, act.target)?.covers ?? []
  const users = others.filter(
    (one) => touchedBy(kit, one.act).some((id) => covers.includes(id)) || meet(kit, one.act.target, act.target),
  )
  return marks(["nobody-gives", "taken-away-before"], ...users.map(at))
})

/** The old cable stays in its socket. */
const disconnectMissing = missing("disconnect-missing", ["F21"], verbIs("disconnect"), (kit, { act }, others, at) => {
  const cable = touchedBy(kit, act)[1]
  const users = others.filter(
    (one) =>
      one.act.target === act.target ||
      one.act.target === cable ||
      (one.act.verb === "connect" && one.act.to === act.to),
  )
  return marks(["nobody-gives", "taken-away-before"], ...users.map(at))
})

const isOfScrews = (kit: Kit, { act }: Written): boolean =>
  (act.verb === "set-aside" || act.verb === "discard") && kit.ownJoints.some(({ id }) => id === act.target)

/** Screws that came out are neither kept nor thrown away. */
const keepMissing = missing("set-aside-missing", ["K04"], isOfScrews, (_, { act }, others, at) =>
  marks(
    "own-screws-unaccounted",
    ...others.filter((one) => one.act.verb === "unscrew" && one.act.target === act.target).map(at),
  ),
)

/** A cable that belongs through an opening runs beside it. */
const feedMissing = missing("feed-missing", ["F53"], verbIs("feed"), (kit, { act }, others, at) => {
  const cable = touchedBy(kit, act)[1]
  const users = others.filter(
    (one) => ["connect", "feed"].includes(one.act.verb) && touchedBy(kit, one.act).includes(cable ?? ""),
  )
  return [
    ...marks(["goal-not-reached", "nobody-gives"], ...users.map(at), `cables/${cable ?? ""}`),
    ...marks("passage-never-used", `passages/${act.through ?? ""}`),
  ]
})

/** An end hangs free. */
const connectMissing = missing("connect-missing", ["F53"], verbIs("connect"), (kit, { act }, others, at) => {
  const cable = touchedBy(kit, act)[1]
  const users = others.filter((one) => {
    const isTied = kit.ties.some(({ id, holds }) => id === one.act.target && holds.includes(cable ?? ""))
    return touchedBy(kit, one.act).includes(cable ?? "") || isTied
  })
  return marks(["goal-not-reached", "nobody-gives"], ...users.map(at), `cables/${cable ?? ""}`)
})

/** A tie is closed by no step. */
const strapMissing = missing("strap-missing", ["F53"], verbIs("strap"), (_, { act }, others, at) => {
  const trims = others.filter((one) => one.act.verb === "trim" && one.act.target === act.target)
  return trims.length > 0 ? marks("nobody-gives", ...trims.map(at)) : marks("item-never-used", `ties/${act.target}`)
})

/** A pad is stuck on by no step. */
const stickMissing = missing("stick-missing", ["F53"], verbIs("stick"), (_, { act }, others, at) => [
  ...marks("item-never-used", `pads/${act.target}`),
  ...marks("nobody-gives", ...others.filter((one) => one.act.target === act.target).map(at)),
])

/** The power that was taken off does not come back. */
const restoreMissing = missing("restore-missing", ["F17"], verbIs("restore"), (_, { act }, others, at) =>
  marks(
    "goal-not-reached",
    ...others.filter((one) => one.act.verb === "isolate" && one.act.target === act.target).map(at),
  ),
)

/** Nobody verifies that the power is off. */
const verifyMissing = missing("verify-missing", ["F15"], verbIs("verify"), (_, { act }, others, at) =>
  marks(
    "isolated-without-verification",
    ...others.filter((one) => one.act.verb === "isolate" && one.act.target === act.target).map(at),
  ),
)

/** Nobody looks at the finished work. */
const inspectMissing = missing(
  "inspect-missing",
  ["F18"],
  (kit, { act }) =>
    act.verb === "inspect" &&
    act.target === "all" &&
    kit.steps.some(({ acts }) => acts.some(({ verb }) => verb === "restore")),
  (_, __, others, at) =>
    marks("restored-without-inspection", ...others.filter((one) => one.act.verb === "restore").map(at)),
)

/** The only cleaning of what an adhesive pad sticks to is left out. */
const cleanMissing = missing(
  "clean-missing",
  ["K31"],
  (kit, one) =>
    one.act.verb === "clean" &&
    kit.pads.some(({ on, isAdhesive }) => isAdhesive && meet(kit, on, one.act.target)) &&
    kit.steps
      .flatMap(({ acts }) => acts)
      .filter(({ verb, target }) => verb === "clean" && meet(kit, target, one.act.target)).length === 1,
  (kit, { act }, others, at) =>
    marks(
      "surface-not-cleaned",
      ...others
        .filter(
          (one) =>
            one.act.verb === "stick" &&
            kit.pads.some(({ id, on }) => id === one.act.target && meet(kit, on, act.target)),
        )
        .map(at),
    ),
)

/** A hinged part stays open. */
const closeMissing = missing("close-missing", ["F22"], verbIs("close"), (kit, { act }, others, at) =>
  marks(
    ["goal-not-reached", "nobody-gives"],
    ...others.filter((one) => meet(kit, one.act.target, act.target) || one.act.through === act.target).map(at),
    `parts/${partOf(kit, act.target)?.id ?? ""}`,
    `passages/${act.target}`,
  ),
)

function usesPart(kit: Kit, { act }: Written, id: string): boolean {
  const isIt = (ids: readonly string[]): boolean => ids.some((one) => meet(kit, one, id))
  const joint = kit.joints.find((one) => one.id === act.target)
  if (joint !== undefined) return isIt([...joint.through, ...joint.bore.owners])
  const piece = partOf(kit, id)
  // A sub-assembly is placed with all its pieces.
  const isThing = [...kit.parts, ...kit.units, ...kit.pads, ...kit.ties].some(({ id: one }) =>
    meet(kit, one, act.target),
  )
  if (act.verb === "place" && !isThing) return true
  if (act.target === `${piece?.ownedBy ?? ""}.${piece?.id ?? ""}`) return true
  const tie = kit.ties.find((one) => one.id === act.target)
  if (tie !== undefined && act.verb === "strap")
    return isIt([...tie.holds, ...(tie.slot === undefined ? [] : [tie.slot.in])])
  const passage = kit.passages.find((one) => one.id === act.through)
  if (passage !== undefined) return isIt([passage.part])
  return (
    ["close", "open", "inspect", "restore"].includes(act.verb) &&
    (act.target === "all" || act.verb === "restore" || isIt([act.target]))
  )
}

/** All operators that leave an act out. */
export const missingOperators: readonly Operator[] = [
  placeMissing,
  cleanMissing,
  refitMissing,
  jointMissing,
  startMissing,
  tightenMissing,
  unscrewMissing,
  removeMissing,
  disconnectMissing,
  keepMissing,
  feedMissing,
  connectMissing,
  strapMissing,
  stickMissing,
  restoreMissing,
  verifyMissing,
  inspectMissing,
  closeMissing,
]
