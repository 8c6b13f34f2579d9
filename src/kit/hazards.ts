/** Hazards with the signal word that their severity and likelihood give. */
import type { HazardSpec } from "../spec/types.ts"
import { placeOf } from "./desk.ts"
import { lookUpOrReport } from "./names.ts"
import type { Shop } from "./shop.ts"
import { resolveText } from "./texts.ts"
import type { Hazard } from "./types.ts"

/**
 * Gives the signal word: death or serious injury is DANGER when it will happen and WARNING when it could; minor or
 * moderate injury is CAUTION, harm to things alone is NOTICE.
 * Source: ANSI Z535.6-2011, 4.10 to 4.14 (definitions of the signal words), clause numbers from memory.
 */
function signalWordOf(harm: Hazard["harm"], may: Hazard["may"]): Hazard["signalWord"] {
  if (harm === "damage") return "notice"
  if (harm === "minor" || harm === "moderate") return "caution"
  return may === "will" ? "danger" : "warning"
}

/** Resolves a hazard; steps that are not there are reported and left out. */
export function resolveHazard(shop: Shop, spec: HazardSpec): readonly Hazard[] {
  const source = resolveText(shop, spec.source)
  const avoid = resolveText(shop, spec.avoid)
  if (source === undefined || avoid === undefined) return []
  const steps = spec.steps.flatMap((name, index) => {
    const where = placeOf(shop, spec.path, "at", String(index))
    return lookUpOrReport(shop, ["step"], name, spec.path, where)?.id ?? []
  })
  const { id, path, harm, may } = spec
  const consequence = resolveText(shop, spec.consequence)
  return [{ id, path, source, harm, may, avoid, consequence, signalWord: signalWordOf(harm, may), steps }]
}
