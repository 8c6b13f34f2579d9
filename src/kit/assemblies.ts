/** Groups of pieces that are joined on the bench and then put in their place as one. */
import { quote } from "../spec/tell.ts"
import type { AssemblySpec } from "../spec/types.ts"
import { called, placeOf, report, wordsOf } from "./desk.ts"
import { lookUpOrReport } from "./names.ts"
import { unitVector } from "./pieces.ts"
import type { Shop } from "./shop.ts"
import type { Assembly } from "./types.ts"

/** Resolves one group; names that nothing has are reported and left out. A group of a single piece is told: it is that piece. */
export function resolveAssembly(shop: Shop, spec: AssemblySpec): Assembly {
  const named = spec.of.map((name, index) =>
    lookUpOrReport(shop, ["part", "instance", "unit"], name, spec.path, placeOf(shop, spec.path, "of", String(index))),
  )
  const of = [...new Set(named.flatMap((one) => one?.id ?? []))]
  const instances = of.flatMap((id) => shop.placed.get(id)?.instances.map((instance) => instance.id) ?? [])
  if (named.every((one) => one !== undefined) && of.length === 1 && instances.length < 2) {
    report(shop, "assembly-of-one-piece", "error", {
      message: `${called(spec.path)} has one piece, ${quote(of[0] ?? "")}`,
      where: placeOf(shop, spec.path, "of"),
      why: "an assembly is two or more pieces that are joined before they are put in their place",
      fix: `name its other pieces, or write \`place: ${of[0] ?? ""}\` and leave the assembly out`,
    })
  }
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    of,
    instances: [...new Set(instances)],
    goes: unitVector(spec.goes),
  }
}
