/** Openings in the wrong order, turns, times of waiting, copied steps. */
import type { Kit } from "../../../src/kit/types.ts"
import { nameAct, pairsOf, type Written, withVerb, writtenActs } from "../acts.ts"
import { addAct, deleteAct, insertAt, moveAct, pathNow, rewriteAct } from "../draft.ts"
import { marks, type Operator, type Plant } from "../plant.ts"

/** Two openings that one end is fed through change places. */
const threadedInWrongOrder: Operator = {
  name: "threaded-in-wrong-order",
  faults: ["F07"],
  find: (variant) => {
    const acts = withVerb(writtenActs(variant), "feed")
    const isClosed = ({ act }: Written): boolean =>
      variant.proof.kit.passages.some(({ id, isClosed }) => id === act.through && isClosed)
    return pairsOf(acts, (one, other) => one.act.target === other.act.target && isClosed(one) && isClosed(other)).map(
      ([one, other]): Plant => ({
        site: `${nameAct(one)} and ${nameAct(other)}`,
        edit: (draft) => {
          rewriteAct(draft, one.origin, (text) => text.replace(one.act.through ?? "?", other.act.through ?? "?"))
          rewriteAct(draft, other.origin, (text) => text.replace(other.act.through ?? "?", one.act.through ?? "?"))
        },
        expect: (draft) => [
          marks(
            ["taken-away-before", "needs-something-later", "nobody-gives", "goal-not-reached"],
            pathNow(draft, one.origin),
            pathNow(draft, other.origin),
          ),
        ],
      }),
    )
  },
}

/** Acts on screws that are driven from a side which the work is turned to. */
function fromSide(kit: Kit, acts: readonly Written[], turn: Written): readonly Written[] {
  return acts.filter(({ act, order }) => {
    const joint = kit.joints.find(({ id }) => id === act.target)
    return order > turn.order && joint?.side !== undefined && joint.side === turn.act.to
  })
}

/** The work is not turned. */
const turnMissing: Operator = {
  name: "turn-missing",
  faults: ["F19"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return withVerb(acts, "turn").flatMap((turn): readonly Plant[] => {
      const work = fromSide(kit, acts, turn)
      if (work.length === 0) return []
      return [
        {
          site: nameAct(turn),
          edit: (draft) => deleteAct(draft, turn.origin),
          expect: (draft) => [
            marks(
              ["taken-away-before", "nobody-gives", "needs-something-later"],
              ...work.map(({ origin }) => pathNow(draft, origin)),
            ),
          ],
        },
      ]
    })
  },
}

/** The work is turned twice to one side. */
const turnTwice: Operator = {
  name: "turn-twice",
  faults: ["F19"],
  find: (variant) =>
    withVerb(writtenActs(variant), "turn").map((turn): Plant => {
      let again = ""
      return {
        site: nameAct(turn),
        edit: (draft) => {
          again = addAct(draft, `turn: ${turn.act.target} to ${turn.act.to ?? "back"}`, "behind", turn.origin)
        },
        expect: (draft) => [
          marks(["needless-turn-over", "taken-away-before"], pathNow(draft, again), pathNow(draft, turn.origin)),
        ],
      }
    }),
}

/** The work is turned only after the work on that side. */
const turnTooLate: Operator = {
  name: "turn-too-late",
  faults: ["F19"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return withVerb(acts, "turn").flatMap((turn) =>
      fromSide(kit, acts, turn)
        .filter(({ file }) => file === turn.file)
        .map(
          (work): Plant => ({
            site: `${nameAct(turn)} behind ${nameAct(work)}`,
            edit: (draft) => moveAct(draft, turn.origin, "behind", work.origin),
            expect: (draft) => [
              [
                ...marks(
                  ["needs-something-later", "taken-away-before"],
                  ...fromSide(kit, acts, turn).map(({ origin }) => pathNow(draft, origin)),
                ),
                ...marks("needs-something-later", pathNow(draft, turn.origin)),
              ],
            ],
          }),
        ),
    )
  },
}

/** Times of waiting for things that must cure. */
function pauses(kit: Kit, acts: readonly Written[]): readonly Written[] {
  return withVerb(acts, "wait").filter(({ act, order }) => {
    const curing = [...kit.pads, ...kit.joints].filter(({ cureMinutes }) => cureMinutes !== undefined)
    return curing.some(({ id }) => act.target === id || acts.some((one) => one.order < order && one.act.target === id))
  })
}

/** Nobody waits for what must cure. */
const waitMissing: Operator = {
  name: "wait-missing",
  faults: ["F64"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return pauses(kit, acts).map(
      (pause): Plant => ({
        site: nameAct(pause),
        edit: (draft) => deleteAct(draft, pause.origin),
        expect: (draft) => [
          marks(
            "cure-time-too-short",
            ...acts.filter((one) => one !== pause).map(({ origin }) => pathNow(draft, origin)),
          ),
        ],
      }),
    )
  },
}

/** The time of waiting is a tenth of what it should be. */
const waitTooShort: Operator = {
  name: "wait-too-short",
  faults: ["F64"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return pauses(kit, acts).map(
      (pause): Plant => ({
        site: nameAct(pause),
        edit: (draft) =>
          rewriteAct(draft, pause.origin, (text) =>
            text.replace(/\d+(\.\d+)? ?(min|h|s)?/, `${(pause.act.minutes ?? 10) / 10} min`),
          ),
        expect: (draft) => [marks("cure-time-too-short", ...acts.map(({ origin }) => pathNow(draft, origin)))],
      }),
    )
  },
}

/** The unit's own screws go where new ones are supplied. */
const ownScrewsReused: Operator = {
  name: "own-screws-reused",
  faults: ["F41"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return kit.joints.flatMap((joint): readonly Plant[] => {
      const own = kit.ownJoints.find(({ bore }) => bore === joint.bore.id)
      const used = withVerb(acts, "start", "tighten").filter(({ act }) => act.target === joint.id)
      const touched = acts.filter(({ act }) => act.target === own?.id || act.target === joint.id)
      if (own === undefined || used.length === 0) return []
      return [
        {
          site: `${own.id} in place of ${joint.id}`,
          edit: (draft) => {
            for (const { origin } of used) rewriteAct(draft, origin, (text) => text.replace(joint.id, own.id))
          },
          expect: (draft) => [
            [
              ...marks("item-never-used", joint.path),
              ...marks(["nobody-gives", "taken-away-before"], ...touched.map(({ origin }) => pathNow(draft, origin))),
            ],
          ],
        },
      ]
    })
  },
}

/** A step is copied under another id, with all its acts. */
const stepCopied: Operator = {
  name: "step-copied",
  faults: ["F52"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    return kit.steps.flatMap(({ id, path }): readonly Plant[] => {
      const own = acts.filter(({ step }) => step === id)
      const file = kit.places[path]?.file
      const isLast = kit.steps.at(-1)?.id === id
      const isDoable = own.some(({ act }) => !["inspect", "wait", "clean", "turn"].includes(act.verb))
      if (file !== "kit.yaml" || own.length === 0 || isLast || !isDoable) return []
      return [
        {
          site: id,
          edit: (draft) => {
            const steps = draft.steps.get(file) ?? []
            const index = steps.findIndex((step) => step.id === id)
            const next = steps[index + 1]
            const list = steps[index]?.list.map(({ text }) => `      - ${text}\n`).join("") ?? ""
            if (next !== undefined) insertAt(draft, file, next.from, `  planted-copy:\n    do:\n${list}`)
          },
          expect: () => [
            [
              ...marks(["taken-away-before", "step-without-effect"], "steps/planted-copy"),
              ...marks(["nobody-gives", "supplied-too-few"], "steps/planted-copy"),
            ],
          ],
          // Each act of the copy that can be done only once is told.
          allow: () => marks(["taken-away-before", "supplied-too-few"], "steps/planted-copy"),
        },
      ]
    })
  },
}

/** All of these operators. */
export const moreOrderOperators: readonly Operator[] = [
  threadedInWrongOrder,
  turnMissing,
  turnTwice,
  turnTooLate,
  waitMissing,
  waitTooShort,
  ownScrewsReused,
  stepCopied,
]
