/** The maker's texts: read, and every reference in them held against what the kit has. */
import { nearNames } from "../findings/near.ts"
import { quote } from "../spec/tell.ts"
import { parseText } from "../text/parse.ts"
import type { MakerText, SourceText, TextReference } from "../text/types.ts"
import { reportUnknownName } from "./desk.ts"
import { fixFor, isLeftOut, kindsInWords, knownNames, lookUp, meantPaths, type NameKind, unknownKey } from "./names.ts"
import type { Shop } from "./shop.ts"

/** What each kind of reference may name: `[](torque:foot)` names a joint. */
const kinds: Readonly<Record<string, readonly NameKind[]>> = {
  part: ["part", "instance", "assembly"],
  joint: ["joint", "own-joint"],
  torque: ["joint", "own-joint"],
  screw: ["joint", "own-joint"],
  count: ["joint", "own-joint", "tie", "pad", "part"],
  tie: ["tie"],
  pad: ["pad"],
  bag: ["bag"],
  cable: ["cable"],
  end: ["end"],
  passage: ["passage"],
  socket: ["socket"],
  step: ["step"],
  tool: ["tool", "consumable"],
  unit: ["unit"],
  frame: ["frame"],
}

/** Kinds that print a value of a thing, not the thing; they are not offered instead of another. */
const derived: ReadonlySet<string> = new Set(["torque", "screw", "count"])

/** Reads a text. References to what is not there are reported at their own place; the text keeps them as written. */
export function resolveText(shop: Shop, source: SourceText | undefined): MakerText | undefined {
  if (source === undefined) return undefined
  const { value, findings } = parseText(source)
  shop.findings.push(...findings)
  for (const reference of value.references) checkReference(shop, reference)
  return value
}

function checkReference(shop: Shop, { kind, target, where }: TextReference): void {
  // Kinds that are not known were told and taken out when the text was read.
  const wanted = kinds[kind]
  if (wanted === undefined) return
  if (lookUp(shop.names, wanted, target) !== undefined || isLeftOut(shop.spec, shop.names, wanted, target)) return
  const known = knownNames(shop.names, wanted)
  const near = nearNames(target, known).map((name) => `${kind}:${name}`)
  const others = Object.entries(kinds)
    .filter(([other, names]) => !derived.has(other) && lookUp(shop.names, names, target) !== undefined)
    .map(([other]) => `${other}:${target}`)
  const instead = [...near, ...others].slice(0, 3)
  reportUnknownName(shop, "unknown-reference", unknownKey(shop.names, wanted, target), {
    meant: meantPaths(shop, wanted, target),
    message: `the reference ${quote(`${kind}:${target}`)} names nothing that is there`,
    where,
    why: `it must name ${kindsInWords(wanted)}`,
    ...(instead.length === 0
      ? fixFor(
          [],
          known.map((name) => `${kind}:${name}`),
        )
      : fixFor(instead, [])),
  })
}
