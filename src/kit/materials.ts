/** What a material's name says about its kind. */
import type { Material } from "./types.ts"

/** Names by kind, as they are written in the trade; the first that occurs in the text decides. */
const kinds: readonly (readonly [Material["kind"], RegExp])[] = [
  ["stainless", /\bstainless\b|\binox\b|\bA[24](-\d+)?\b|\b(1\.4301|1\.4401|304|316)\b/i],
  ["aluminium", /\balumini?um\b|\balu\b|\b(EN )?AW[- ]?\d{4}\b|\b(5754|6060|6061|6063|6082)\b/i],
  ["steel", /\bsteel\b|\bS235\b|\bS355\b|\bDC01\b/i],
  ["rubber", /\brubber\b|\bEPDM\b|\bNBR\b|\bsilicone\b|\bneoprene\b/i],
  [
    "plastic",
    /\b(PETG?|PLA|ABS|ASA|PA|PA[- ]?(6|11|12|66)|PC|PP|PE|POM|PMMA|PVC|TPU|TPE|HIPS|PEI|PEEK|PPS|nylon|plastic|polycarbonate)\b/i,
  ],
]

/** Gives a material with its kind; `isPlastic` is what the spec said by writing `plastic:`. Undefined for no name. */
export function readMaterial(name: string | undefined, isPlastic = false): Material | undefined {
  if (name === undefined || name.trim() === "") return undefined
  if (isPlastic) return { name, kind: "plastic" }
  return { name, kind: kinds.find(([, pattern]) => pattern.test(name))?.[0] ?? "other" }
}
