/** Free words that are most likely a slip of the pen: a material or a side that is near to a known one, and is none. */
import { nearNames } from "../findings/near.ts"
import { oneOfWords, quote } from "../spec/tell.ts"
import type { BoreSpec } from "../spec/types.ts"
import { allParts, called, type Desk, placeOf, report } from "./desk.ts"
import { readMaterial } from "./materials.ts"

/** Materials as they are mostly written; others are known too, and any other word is kept as it is. */
const materials = ["aluminium", "steel", "stainless", "rubber", "silicone", "plastic", "brass", "wood", "nylon"]
const sides = ["left", "right", "front", "back", "top", "bottom"]

/** Reports doubtful words of parts, bores, frames and joints. What is computed from them is then told by no rule. */
export function reportDoubtfulWords(desk: Desk): void {
  const { hosts, joints } = desk.spec
  const units = hosts.filter((host) => host.kind === "unit")
  const pieces = allParts(desk.spec)
  const bores: readonly BoreSpec[] = [...units, ...pieces].flatMap((owner) => owner.bores)
  for (const { path, material } of [...pieces.filter(({ isPlastic }) => !isPlastic), ...hosts.filter(isFrame)])
    judge(desk, path, "material", material, materials)
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
  if (written === undefined || known.includes(written.toLowerCase())) return
  if (known === materials && readMaterial(written)?.kind !== "other") return
  const near = nearNames(written, known)
  if (near.length === 0) return
  desk.told.add(`${path}/${key}`)
  report(desk, "word-doubtful", "warning", {
    message: `\`${key}\` of ${called(path)} is ${quote(written)}, which is near ${oneOfWords(near)}`,
    where: placeOf(desk, path, key),
    why: known === materials ? "what a thread bears is computed from its material" : "a side is named alike everywhere",
    fix: `write ${oneOfWords(near)}, or accept this`,
    subjects: [path.split("/")[1] ?? ""],
  })
}
