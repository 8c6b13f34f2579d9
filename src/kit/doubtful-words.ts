/** Free words that are most likely a slip of the pen: a material or a side that is near to a known one, and is none. */
import { nearNames } from "../findings/near.ts"
import { oneOfWords, quote } from "../spec/tell.ts"
import type { BoreSpec } from "../spec/types.ts"
import { allParts, called, type Desk, placeOf, report } from "./desk.ts"
import { readMaterial } from "./materials.ts"

/** Materials as they are mostly written; others are known too, and any other word is kept as it is. */
const materials = ["aluminium", "steel", "stainless", "rubber", "silicone", "plastic", "brass", "wood", "nylon"]
/** Plastics that are printed, so that each is known as itself and not as a slip of another. */
const plastics = [
  ...[
    "PLA",
    "PETG",
    "PET",
    "PCTG",
    "ABS",
    "ASA",
    "PA",
    "PA6",
    "PA11",
    "PA12",
    "PC",
    "PP",
    "PE",
    "POM",
    "TPU",
    "TPE",
    "TPC",
  ],
  ...[
    "HIPS",
    "PVB",
    "PVA",
    "PHA",
    "PBT",
    "PMMA",
    "PVC",
    "SAN",
    "PEI",
    "PEEK",
    "PEKK",
    "PPS",
    "CPE",
    "nylon",
    "polycarbonate",
  ],
]
const sides = ["left", "right", "front", "back", "top", "bottom"]

/** Reports doubtful words of parts, bores, frames and joints. What is computed from them is then told by no rule. */
export function reportDoubtfulWords(desk: Desk): void {
  const { hosts, joints } = desk.spec
  const units = hosts.filter((host) => host.kind === "unit")
  const pieces = allParts(desk.spec)
  const bores: readonly BoreSpec[] = [...units, ...pieces].flatMap((owner) => owner.bores)
  for (const { path, material } of [...pieces.filter(({ isPlastic }) => !isPlastic), ...hosts.filter(isFrame)])
    judge(desk, path, "material", material, materials)
  for (const { path, material } of pieces.filter(({ isPlastic }) => isPlastic))
    judge(desk, path, "plastic", material, plastics)
  for (const { path, material } of bores) judge(desk, path, "in", material, materials)
  for (const { path, into, side } of joints) {
    if (typeof into === "object") judge(desk, into.path, "in", into.material, materials)
    judge(desk, path, "side", side, sides)
  }
}

function isFrame<Host extends { readonly kind: string }>(host: Host): host is Extract<Host, { kind: "frame" }> {
  return host.kind === "frame"
}

function judge(desk: Desk, path: string, key: string, written: string | undefined, known: readonly string[]): void {
  if (written === undefined || known.some((one) => one.toLowerCase() === written.toLowerCase())) return
  if (known !== sides && readMaterial(written)?.kind !== "other") return
  // Three letters are near to many others.
  if (known === plastics && written.length < 4) return
  const near = nearNames(written, known)
  if (near.length === 0) return
  desk.told.add(`${path}/${key}`)
  report(desk, "word-doubtful", "warning", {
    message: `\`${key}\` of ${called(path)} is ${quote(written)}, which is near ${oneOfWords(near)}`,
    where: placeOf(desk, path, key),
    why: known !== sides ? "what a thread bears is computed from its material" : "a side is named alike everywhere",
    fix: `write ${oneOfWords(near)}, or accept this`,
    subjects: [path.split("/")[1] ?? ""],
  })
}
