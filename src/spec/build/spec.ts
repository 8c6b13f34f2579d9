/** The spec of one variant from the typed long form, its tree and its places. */
import { childOf } from "../read/tree.ts"
import type { KitInput } from "../schema/kit.ts"
import type { Spec } from "../types.ts"
import { type Build, buildRange, textAt } from "./context.ts"
import { buildCable, buildJoint, buildPad, buildPassage, buildTie } from "./fastening.ts"
import { buildHost, buildPart } from "./pieces.ts"
import { buildActs, buildHazard, buildStep } from "./steps.ts"

/** Gives the spec of one variant. Everything stands in the order of writing; defaults are put in. */
export function buildSpec(build: Build, given: KitInput, variant: Spec["variant"]): Omit<Spec, "told"> {
  const { fits, environment } = given
  const entry = (collection: string, id: string) => ({ id, path: `${collection}/${id}` })
  return {
    kit: given.kit,
    title: given.title,
    variant,
    places: build.places,
    isInvented: given.invented,
    supplier: given.supplier ?? { name: "", address: "", contact: "" },
    revision: given.revision,
    intendedUse: textAt(build, "intended-use"),
    notFor: textAt(build, "not-for"),
    persons: given.persons,
    minutes: given.time,
    languages: given.languages,
    fits: {
      path: "fits",
      tube: fits?.tube ?? (fits?.diameter !== undefined ? "round" : fits?.width !== undefined ? "square" : undefined),
      tubeMm: buildRange(fits?.diameter ?? fits?.width),
      loadKg: fits?.load,
      temperatureC: buildRange(fits?.temperature),
      others: Object.entries(fits?.also ?? {}).map(([name, value]) => ({ name, value })),
    },
    environment: {
      temperatureC: buildRange(environment?.temperature),
      sun: environment?.sun ?? false,
      wet: environment?.wet ?? false,
      salt: environment?.salt ?? false,
      vibration: environment?.vibration ?? false,
    },
    printing: Object.entries(given.printing).map(([id, one]) => ({
      ...entry("printing", id),
      holeMm: one.holes,
      outsideMm: one.outside,
      shrinkagePercent: one.shrinkage,
      compensatedIn: one.compensated === "in model" ? "model" : one.compensated === "in slicer" ? "slicer" : "none",
    })),
    hosts: Object.entries(given.host).map(([id, one]) => buildHost(build, id, one)),
    parts: Object.entries(given.parts).map(([id, one]) => buildPart(id, one)),
    assemblies: Object.entries(given.assemblies).map(([id, one]) => ({
      ...entry("assemblies", id),
      name: one.name,
      of: one.of,
      goes: one.goes,
    })),
    cables: Object.entries(given.cables).map(([id, one]) => buildCable(id, one)),
    passages: Object.entries(given.passages).map(([id, one]) => buildPassage(id, one)),
    joints: Object.entries(given.joints).map(([id, one]) => buildJoint(id, one)),
    ties: Object.entries(given.ties).flatMap(([id, one]) => buildTie(id, one, given.host)),
    pads: Object.entries(given.pads).map(([id, one]) => buildPad(id, one)),
    bags: Object.entries(given.bags).map(([id, one]) => ({
      ...entry("bags", id),
      name: one.name,
      side: one.side,
      isForOwnScrews: one.for !== undefined,
    })),
    tools: Object.entries(given.tools).map(([id, one]) => ({
      ...entry("tools", id),
      name: one.name,
      isSupplied: one.supplied,
    })),
    consumables: Object.entries(given.consumables).map(([id, one]) => ({
      ...entry("consumables", id),
      name: one.name,
    })),
    hazards: Object.entries(given.hazards).flatMap(([id, one]) => buildHazard(build, id, one)),
    box: Object.entries(given.box).map(([id, count]) => ({ ...entry("box", id), count })),
    arrives: buildActs(given.arrives, "arrives"),
    steps: stepOrder(build).flatMap((id) => {
      const step = given.steps[id]
      return step === undefined ? [] : [buildStep(build, id, step)]
    }),
    accepts: given.accept.map((one, index) => ({
      path: `accept/${index}`,
      rule: one.rule,
      subjects: one.subjects,
      reason: one.reason,
    })),
  }
}

/** Steps in the order of the tree, which is a list of entries; object keys are never asked for their order. */
function stepOrder({ tree }: Build): readonly string[] {
  const steps = childOf(tree, "steps")
  return steps?.kind === "map" ? steps.entries.map((entry) => entry.key) : []
}
