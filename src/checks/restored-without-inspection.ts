/** Judges whether somebody looks at the work before or when the power comes back. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"
import { allActs, explainByLeftOut } from "./uses.ts"

/** Finds kits that restore the power and have no inspection at all. */
export const restoredWithoutInspection = defineRule({
  id: "restored-without-inspection",
  severity: "warning",
  source: "29 CFR 1910.147(e)(1): the work is inspected when energy is restored",
  check: ({ kit, sequence }) => {
    const restore = allActs(kit).find(({ verb }) => verb === "restore")
    if (restore === undefined || allActs(kit).some(({ verb }) => verb === "inspect")) return []
    if (explainByLeftOut(kit, sequence)(["inspect"])) return []
    return [
      {
        message: `the power of \`${restore.target}\` is restored, and no step inspects the work`,
        where: placeAt(kit.places, restore.path),
        why: "Whoever switches on must know that all pieces are in place and nothing was left inside.",
        fix: "Write `inspect: all` in this step.",
        subjects: [restore.target],
      },
    ]
  },
})
