/** Counts, the box, ties, pads, tubes, tools. */
import type { Kit } from "../../../src/kit/types.ts"
import { nameAct, withVerb, writtenActs } from "../acts.ts"
import { addAct, addEntry, deleteEntry, overwrite, pathNow, rewriteAct, textAt } from "../draft.ts"
import { type Mark, marks, type Operator, type Plant } from "../plant.ts"

/** One site for each thing of a kit where a plant is given. */
function each<Thing>(
  name: string,
  faults: readonly string[],
  list: (kit: Kit) => readonly Thing[],
  plant: (kit: Kit, thing: Thing) => Plant | undefined,
): Operator {
  return { name, faults, find: ({ proof: { kit } }) => list(kit).flatMap((thing) => plant(kit, thing) ?? []) }
}

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

/** A count typed in an act is one too many, or one too few. */
function countInAct(
  name: string,
  fault: string,
  verbs: readonly string[],
  by: 1 | -1,
  rules: (kit: Kit, id: string) => string,
): Operator {
  return {
    name,
    faults: [fault],
    find: (variant) => {
      const { kit } = variant.proof
      return writtenActs(variant)
        .filter(({ act }) => verbs.includes(act.verb) && act.count === undefined)
        .flatMap((one): readonly Plant[] => {
          const thing = [...kit.joints, ...kit.ownJoints, ...kit.ties, ...kit.pads].find(
            ({ id }) => id === one.act.target,
          )
          const spare = thing !== undefined && "spare" in thing && by > 0 && !("fastener" in thing) ? thing.spare : 0
          const count = (thing?.count ?? 0) + by * (1 + spare)
          if (thing === undefined || count < 1) return []
          return [
            {
              site: `${nameAct(one)} ${count}`,
              edit: (draft) => rewriteAct(draft, one.origin, (text) => text.replace(/: */, `: ${count} x `)),
              expect: (draft) => [marks(rules(kit, thing.id), pathNow(draft, one.origin))],
            },
          ]
        })
    },
  }
}

const screwCountHigh = countInAct(
  "count-in-act-high",
  "F28",
  ["start", "tighten", "unscrew"],
  1,
  () => "count-differs-from-joint",
)
const screwCountLow = countInAct(
  "count-in-act-low",
  "F28",
  ["start", "tighten", "unscrew"],
  -1,
  () => "count-differs-from-joint",
)
const useTooMany = countInAct("use-more-than-supplied", "F26", ["strap", "stick"], 1, () => "supplied-too-few")
const useTooFew = countInAct("use-less-than-supplied", "F27", ["strap", "stick"], -1, () => "supplied-too-many")

/** The list of what is packed has one piece less, or one more, of an item. */
function boxCount(name: string, fault: string, by: 1 | -1): Operator {
  return {
    name,
    faults: [fault],
    find: ({ proof: { kit, fit } }) => {
      if (kit.box.length > 0) return []
      const counts = new Map<string, number>()
      for (const line of fit.box) {
        const key = line.id ?? line.fastener?.written ?? ""
        counts.set(key, (counts.get(key) ?? 0) + line.count + line.spare)
      }
      return [...counts.keys()].map(
        (item): Plant => ({
          site: item,
          edit: (draft) => {
            const lines = [...counts].map(
              ([key, count]) => `  ${JSON.stringify(key)}: ${count + (key === item ? by : 0)}`,
            )
            addEntry(draft, "kit.yaml", [], `box:\n${lines.join("\n")}`)
          },
          expect: () => [marks("box-differs", `box/${item}`)],
        }),
      )
    },
  }
}

const boxTooFew = boxCount("box-one-too-few", "F26", -1)
const boxTooMany = boxCount("box-one-too-many", "F27", 1)

/** A tie that does not reach round. */
const tieTooShort: Operator = {
  name: "tie-too-short",
  faults: ["F47"],
  find: ({ proof: { kit, fit } }) =>
    kit.ties.flatMap((tie) => {
      const loopMm = fit.ties.find((one) => one.tie === tie.id)?.loopMm
      if (loopMm === undefined) return []
      const kind = tie.kind === "tie" ? "ties" : "bands"
      const path = `${tie.path}/${kind}/length`
      // Ten millimetres over the loop leave no room for head and tail.
      return rewrite(kit, tie.id, path, String(Math.ceil(loopMm + 10)), [marks("tie-too-short", tie.path)]) ?? []
    }),
}

/** A tie wider than its slot. */
const tieTooWide = each(
  "tie-too-wide",
  ["K20"],
  (kit) => kit.ties,
  (kit, tie) => {
    if (tie.slot === undefined) return undefined
    const path = `${tie.path}/${tie.kind === "tie" ? "ties" : "bands"}/width`
    const wideMm = Math.max(tie.slot.widthMm, tie.slot.heightMm) + 1.6
    return rewrite(kit, tie.id, path, String(wideMm), [marks("tie-too-wide-for-slot", tie.path)])
  },
)

/** Ties that bear a tenth of the load. */
const tieTooWeak: Operator = {
  name: "tie-too-weak",
  faults: ["K21"],
  find: ({ proof: { kit, fit } }) =>
    kit.ties.flatMap((tie) => {
      const load = fit.ties.find((one) => one.tie === tie.id)?.load
      if (load === undefined || tie.loopStrengthN === undefined) return []
      const weakN = Math.max(1, Math.floor((tie.loopStrengthN * load.neededN) / load.bornN / 3))
      return rewrite(kit, tie.id, `${tie.path}/strength`, `${weakN} N`, [marks("load-above-tie", tie.path)]) ?? []
    }),
}

/** A tie is cut and closed again: it takes new ones. */
const tieUsedTwice: Operator = {
  name: "single-use-tie-twice",
  faults: ["F42"],
  find: (variant) =>
    withVerb(writtenActs(variant), "strap").flatMap((one): readonly Plant[] => {
      const tie = variant.proof.kit.ties.find(({ id }) => id === one.act.target)
      if (tie === undefined || tie.spare >= tie.count) return []
      let again = ""
      return [
        {
          site: nameAct(one),
          edit: (draft) => {
            again = addAct(draft, `strap: ${tie.id}`, "behind", one.origin)
            addAct(draft, `remove: ${tie.id}`, "behind", one.origin)
          },
          expect: (draft) => [marks(["supplied-too-few", "single-use-again"], pathNow(draft, again))],
        },
      ]
    }),
}

/** The tube of the frame is not the one that is promised. */
const tubeOutside = each(
  "tube-outside-limits",
  ["F48"],
  (kit) => kit.frames,
  (kit, frame) => {
    const place = kit.places[`${frame.path}/tube`]
    if (place === undefined || kit.limits.tubeMm === undefined) return undefined
    return {
      site: frame.id,
      edit: (draft) => overwrite(draft, place, frame.profile.kind === "round" ? "round 91" : "square 91"),
      expect: () => [marks("tube-outside-limits", `${frame.path}/tube`, "fits")],
      // A wider tube also fits no seat and needs longer ties: each is a thing to buy or to print anew.
      allow: () =>
        marks(["tie-too-short", "seat-does-not-fit-tube", "cable-too-short"], "ties", "parts", "host", "cables"),
    }
  },
)

/** The unit weighs more than the kit may carry. */
const unitTooHeavy = each(
  "unit-too-heavy",
  ["F66"],
  (kit) => kit.units,
  (kit, unit) => {
    const loadKg = kit.limits.loadKg
    if (loadKg === undefined || unit.massKg === undefined) return undefined
    const path = `${unit.path}/mass`
    return rewrite(kit, unit.id, path, `${loadKg + 0.4} kg`, [marks("unit-above-load-limit", path, "fits")])
  },
)

/** A tool that nobody needs. */
const toolAdded: Operator = {
  name: "tool-added",
  faults: ["F37"],
  find: ({ proof: { kit } }) => {
    const isThere = kit.tools.length > 0
    return [
      {
        site: "tools",
        edit: (draft) => {
          if (isThere) addEntry(draft, "kit.yaml", ["tools"], "planted-rule: Steel rule")
          else addEntry(draft, "kit.yaml", [], "tools: { planted-rule: Steel rule }")
        },
        expect: () => [marks("tool-never-used", "tools/planted-rule")],
      },
    ]
  },
}

/** A tool that a step names is not declared. */
const toolRemoved = each(
  "tool-removed",
  ["F36"],
  (kit) => kit.tools,
  (kit, tool) => {
    const file = kit.places[tool.path]?.file
    if (file === undefined) return undefined
    return {
      site: tool.id,
      edit: (draft) => deleteEntry(draft, file, kit.tools.length === 1 ? ["tools"] : tool.path.split("/")),
      expect: () => [marks(["unknown-reference", "unknown-name"], ...kit.steps.map(({ path }) => path))],
    }
  },
)

/** Pieces lie at another number of places than there are. */
const placesDiffer = each(
  "places-differ",
  ["K22"],
  (kit) => kit.ties,
  (kit, tie) => {
    if (tie.points.length === 0) return undefined
    const path = `${tie.path}/${tie.kind === "tie" ? "ties" : "bands"}/count`
    return rewrite(kit, tie.id, path, String(tie.count + 1), [marks("places-differ-from-count", tie.path)])
  },
)

/** All screws of one head and drive get into one bag. */
const bagsMixed = each(
  "look-alikes-in-one-bag",
  ["K23"],
  (kit) => kit.joints,
  (kit, joint) => {
    const twin = kit.joints.find(
      (one) =>
        one.bag !== joint.bag &&
        one.bag !== undefined &&
        one.fastener.designation !== joint.fastener.designation &&
        one.fastener.diameterMm === joint.fastener.diameterMm &&
        one.fastener.kind === joint.fastener.kind &&
        Math.abs((one.fastener.lengthMm ?? 0) - (joint.fastener.lengthMm ?? 0)) <= 2,
    )
    if (twin?.bag === undefined) return undefined
    return rewrite(kit, `${joint.id} with ${twin.id}`, `${joint.path}/bag`, twin.bag, [
      marks("look-alikes-in-one-bag", joint.path, twin.path),
    ])
  },
)

/** Rules about what is measured on models. */
const measured = [
  "hole-not-found",
  "hole-count-differs",
  "holes-do-not-meet",
  "gap-in-joint",
  "screw-too-short",
  "seat-does-not-fit-tube",
  "tie-too-short",
  "bore-deeper-than-piece",
  "opening-larger-than-model",
  "hole-too-small",
  "own-screws-miss-piece",
]

/** A model is taken to be in inches. */
const modelInMetres = each(
  "model-in-metres",
  ["F35"],
  (kit) => kit.parts,
  (kit, part) => {
    const place = kit.places[`${part.path}/model`]
    if (place === undefined) return undefined
    return {
      site: part.id,
      edit: (draft) => overwrite(draft, place, `{ file: ${textAt(draft, place)}, unit: m }`),
      expect: () => [marks(["size-implausible", "model-size-absurd"], `${part.path}/model`)],
      // The size is only implausible, so all that is measured on the model is judged with it.
      allow: () => marks(measured, "joints", "ties", "parts", "passages", "cables", "host"),
    }
  },
)

/** All operators on counts, ties, tubes and tools. */
export const supplyOperators: readonly Operator[] = [
  screwCountHigh,
  screwCountLow,
  useTooMany,
  useTooFew,
  boxTooFew,
  boxTooMany,
  tieTooShort,
  tieTooWide,
  tieTooWeak,
  tieUsedTwice,
  tubeOutside,
  unitTooHeavy,
  toolAdded,
  toolRemoved,
  placesDiffer,
  bagsMixed,
  modelInMetres,
]
