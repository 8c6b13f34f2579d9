/** Wrong screws, holes and torques. */

import type { Fit, JointFit } from "../../../src/fit/types.ts"
import type { Joint } from "../../../src/kit/joint-types.ts"
import type { Kit } from "../../../src/kit/types.ts"
import { meet, pairsOf, partOf, writtenActs } from "../acts.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { addEntry, deleteEntry, overwrite, pathNow, rewriteAct } from "../draft.ts"
import { type Mark, marks, type Operator, type Plant } from "../plant.ts"

/** Lengths that screws are sold in, up to 60 mm (ISO 888, from memory). */
const lengths = [3, 4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 30, 35, 40, 45, 50, 55, 60]

type Found = { readonly joint: Joint; readonly fit: JointFit; readonly kit: Kit; readonly variant: CleanVariant }

/** One site for each joint where `plant` gives one. */
function forJoints(name: string, faults: readonly string[], plant: (found: Found) => Plant | undefined): Operator {
  return {
    name,
    faults,
    find: (variant) => {
      const { kit, fit } = variant.proof
      return kit.joints.flatMap((joint) => {
        const own = fit.joints.find((one) => one.joint === joint.id)
        return own === undefined ? [] : (plant({ joint, fit: own, kit, variant }) ?? [])
      })
    },
  }
}

/** Overwrites the text at a path of the kit; undefined where nothing is written. */
function rewrite(
  kit: Kit,
  site: string,
  path: string,
  text: string,
  expected: readonly (readonly Mark[])[],
): Plant | undefined {
  const place = kit.places[path]
  if (place === undefined) return undefined
  return { site, edit: (draft) => overwrite(draft, place, text), expect: () => expected }
}

/** The screw in the length `toMm`, its designation written as before. */
function withLength({ joint, kit }: Found, toMm: number | undefined, rule: string): Plant | undefined {
  const path = `${joint.path}/screws`
  if (toMm === undefined) return undefined
  const { written } = joint.fastener
  const changed = written.replace(/^(.*?M[\d.]+)((?:x[\d.]+)??)x[\d.]+(?=\s|$)/, `$1$2x${toMm}`)
  if (changed === written) return undefined
  return rewrite(kit, `${joint.id} ${toMm} mm`, `${path}/of`, changed, [marks(rule, path)])
}

const washerMm = ({ joint, fit }: Found): number =>
  (joint.fastener.lengthMm ?? 0) - (fit.gripMm?.value ?? 0) - (fit.reachMm ?? 0)

/** A screw that ends less than half its diameter behind the mouth of the thread: too short by any reckoning. */
const screwTooShort = forJoints("screw-too-short", ["F30"], (found) => {
  const { fit, joint } = found
  if (fit.gripMm === undefined || fit.reachMm === undefined) return undefined
  const limitMm = fit.gripMm.value + washerMm(found) + 0.5 * joint.fastener.diameterMm
  return withLength(found, lengths.filter((one) => one <= limitMm).at(-1), "screw-too-short")
})

/** A screw longer than grip, washer and bore together. */
const screwTooLong = forJoints("screw-too-long", ["F31"], (found) => {
  const { fit, joint } = found
  if (fit.depthLeftMm === undefined || joint.fastener.lengthMm === undefined) return undefined
  const limitMm = joint.fastener.lengthMm + fit.depthLeftMm
  return withLength(
    found,
    lengths.find((one) => one > limitMm + 0.2),
    "screw-bottoms-out",
  )
})

/** The screws of two joints, of one kind and thread, are swapped; only where one of them is then too short for its joint. */
const screwsSwapped: Operator = {
  name: "screws-swapped",
  faults: ["F29"],
  find: ({ proof: { kit, fit } }) =>
    kit.joints.flatMap((one, index) =>
      kit.joints.slice(index + 1).flatMap((other): readonly Plant[] => {
        const [first, second] = [one, other].map(({ path }) => kit.places[`${path}/screws/of`])
        const isAlike =
          one.fastener.isThreadForming === other.fastener.isThreadForming &&
          one.fastener.diameterMm === other.fastener.diameterMm
        const changes = [lengthChange(fit, one, other), lengthChange(fit, other, one)]
        const told = changes.filter((change) => change !== undefined)
        if (first === undefined || second === undefined || !isAlike || told.length === 0) return []
        return [
          {
            site: `${one.id} with ${other.id}`,
            edit: (draft) => {
              overwrite(draft, first, other.fastener.written)
              overwrite(draft, second, one.fastener.written)
            },
            expect: () => told.map(({ rule, path }) => marks(rule, path)),
            // What looks alike may then lie in one bag.
            allow: () => marks(["look-alikes-in-one-bag", "look-alikes-in-open-bags"], "joints", "bags"),
          },
        ]
      }),
    ),
}

/** What becomes wrong with a joint that gets the screws of another; undefined when nothing does. */
function lengthChange(
  fit: Fit,
  joint: Joint,
  other: Joint,
): { readonly rule: string; readonly path: string } | undefined {
  const own = fit.joints.find((one) => one.joint === joint.id)
  const byMm = (other.fastener.lengthMm ?? 0) - (joint.fastener.lengthMm ?? 0)
  const path = `${joint.path}/screws`
  const shortMm = (own?.neededEngagementMm?.value ?? 0) - (own?.engagementMm ?? 0) - byMm
  if (own?.depthLeftMm !== undefined && own.depthLeftMm - byMm < -0.05) return { rule: "screw-bottoms-out", path }
  return shortMm > 0.05 && own?.engagementMm !== undefined ? { rule: "screw-too-short", path } : undefined
}

/** The torque ten times as high as the joint bears. */
const torqueTenfold = forJoints("torque-tenfold", ["F32"], ({ joint, fit, kit }) => {
  const { computedNm } = fit.torque
  if (joint.makerTorqueNm === undefined || computedNm === undefined) return undefined
  const text = String(Math.round(Math.max(joint.makerTorqueNm, computedNm) * 1000) / 100)
  return rewrite(kit, joint.id, `${joint.path}/torque`, text, [
    marks(["torque-strips-thread", "head-sinks-into-plastic"], `${joint.path}/torque`),
  ])
})

/** A decimal slip downwards. */
const torqueTenth = forJoints("torque-tenth", ["F33"], ({ joint, kit }) => {
  if (joint.makerTorqueNm === undefined) return undefined
  return rewrite(kit, joint.id, `${joint.path}/torque`, String(joint.makerTorqueNm / 10), [
    marks("torque-far-below-limit", `${joint.path}/torque`),
  ])
})

/** Inch pounds in place of newton metres. */
const torqueInInchPounds = forJoints("torque-in-inch-pounds", ["F35"], ({ joint, kit }) => {
  if (joint.makerTorqueNm === undefined) return undefined
  return rewrite(kit, joint.id, `${joint.path}/torque`, `${joint.makerTorqueNm} lbf in`, [
    marks("torque-far-below-limit", `${joint.path}/torque`),
  ])
})

/** A unit of another quantity. */
const torqueInKilograms = forJoints("torque-in-kilograms", ["F35"], ({ joint, kit }) => {
  if (joint.makerTorqueNm === undefined) return undefined
  return rewrite(kit, joint.id, `${joint.path}/torque`, `${joint.makerTorqueNm} kg`, [
    marks("wrong-unit", `${joint.path}/torque`),
  ])
})

/** No torque of the maker, and nothing that one could be computed from. */
const torqueUnknown = forJoints("torque-unknown", ["F34"], ({ joint, kit, variant }) => {
  const file = kit.places[joint.path]?.file
  const inBore = kit.places[`${joint.bore.path}/in`]
  const tighten = writtenActs(variant).find(({ act }) => act.verb === "tighten" && act.target === joint.id)
  if (file === undefined || inBore?.file !== file || tighten === undefined || joint.bore.kind !== "tapped")
    return undefined
  const users = kit.joints.filter(({ bore }) => bore.id === joint.bore.id)
  if (users.length > 1) return undefined
  return {
    site: joint.id,
    edit: (draft) => {
      deleteEntry(draft, file, `${joint.path}/torque`.split("/"))
      deleteEntry(draft, file, `${joint.bore.path}/in`.split("/"))
    },
    expect: (draft) => [marks("torque-without-value", pathNow(draft, tighten.origin), joint.path)],
  }
})

/** One screw more than there are holes. */
const oneScrewTooMany = forJoints("one-screw-too-many", ["F28"], ({ joint, kit }) => {
  if (joint.points.length === 0 && joint.bore.points.length === 0) return undefined
  return rewrite(kit, joint.id, `${joint.path}/screws/count`, String(joint.count + 1), [
    marks("hole-count-differs", joint.path, joint.bore.path),
  ])
})

/** A screw of the next size. */
const screwTooThick = forJoints("screw-too-thick", ["K10"], ({ joint, kit }) => {
  const next = { 2.5: 3, 3: 4, 4: 5, 5: 6, 6: 8, 8: 10 }[joint.fastener.diameterMm]
  const thicker = joint.fastener.written.replace(/M[\d.]+/, `M${next ?? ""}`)
  if (next === undefined) return undefined
  const plant = rewrite(kit, joint.id, `${joint.path}/screws/of`, thicker, [
    marks(["wrong-thread-for-bore", "hole-too-small"], joint.path),
  ])
  // Thread, hole, washer and length are four things, of which any may be the one that is wrong.
  const others = [
    "wrong-thread-for-bore",
    "hole-too-small",
    "washer-too-small",
    "pilot-hole-unsuitable",
    "screw-too-short",
  ]
  return plant === undefined
    ? undefined
    : { ...plant, allow: () => [...marks(others, joint.path), ...marks("look-alikes-in-open-bags", "joints", "bags")] }
})

/** The holes of a clamped part are written in a diameter that it has not. */
const holesNotThere = forJoints("holes-not-there", ["K11"], ({ joint, kit }) =>
  rewrite(kit, joint.id, `${joint.path}/holes/diameter`, "19.7", [marks("hole-not-found", `${joint.path}/holes`)]),
)

/** A typed grip that is not the thickness of the parts. */
const gripDiffers = forJoints("grip-differs", ["K12"], ({ joint, fit, kit }) => {
  const file = kit.places[joint.path]?.file
  const path = joint.path.split("/")
  if (file === undefined || fit.gripMm?.origin !== "measured" || fit.depthLeftMm === undefined) return undefined
  const grip = fit.gripMm.value - 1
  let isDone = false
  return {
    site: joint.id,
    edit: (draft) => {
      isDone = addEntry(draft, file, path, `grip: ${grip}`)
    },
    expect: () => (isDone ? [marks("grip-differs-from-model", `${joint.path}/grip`)] : []),
  }
})

/** A washer for the next smaller screw. */
const washerTooSmall = forJoints("washer-too-small", ["K13"], ({ joint, kit }) => {
  const smaller = { 4: 3, 5: 4, 6: 5, 8: 6 }[joint.fastener.diameterMm]
  if (joint.washer === undefined || smaller === undefined) return undefined
  const text = joint.washer.written.replace(/M[\d.]+$/, `M${smaller}`)
  return rewrite(kit, joint.id, `${joint.path}/washer`, text, [marks("washer-too-small", `${joint.path}/washer`)])
})

/** The left and the right part change places in the steps: the screws of the first are started without it. */
const handsSwapped: Operator = {
  name: "hands-swapped",
  faults: ["F43"],
  find: (variant) => {
    const { kit } = variant.proof
    const acts = writtenActs(variant)
    const placed = acts.filter(({ act }) => act.verb === "place" && partOf(kit, act.target)?.hand !== undefined)
    return pairsOf(placed, (one, other) => partOf(kit, one.act.target)?.hand !== partOf(kit, other.act.target)?.hand)
      .filter(([one, other]) => one.step !== other.step)
      .map(([one, other]): Plant => {
        const uses = acts.filter(({ act, order }) => {
          const joint = kit.joints.find(({ id }) => act.verb === "start" && id === act.target)
          const pieces = [...(joint?.through ?? []), ...(joint?.bore.owners ?? [])]
          return order > one.order && order < other.order && pieces.some((id) => meet(kit, id, one.act.target))
        })
        return {
          site: `${one.act.target} with ${other.act.target}`,
          edit: (draft) => {
            rewriteAct(draft, one.origin, (text) => text.replace(one.act.target, other.act.target))
            rewriteAct(draft, other.origin, (text) => text.replace(other.act.target, one.act.target))
          },
          expect: (draft) => [marks("needs-something-later", ...uses.map(({ origin }) => pathNow(draft, origin)))],
        }
      })
  },
}

/** All operators on joints. */
export const jointOperators: readonly Operator[] = [
  screwTooShort,
  screwTooLong,
  screwsSwapped,
  torqueTenfold,
  torqueTenth,
  torqueInInchPounds,
  torqueInKilograms,
  torqueUnknown,
  oneScrewTooMany,
  screwTooThick,
  holesNotThere,
  gripDiffers,
  washerTooSmall,
  handsSwapped,
]
