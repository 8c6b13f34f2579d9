/** Judges whether a buyer can reach whoever sells the kit. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"

/** Finds kits without the name of the supplier or a way to reach it. */
export const supplierNotNamed = defineRule({
  id: "supplier-not-named",
  severity: "note",
  source: "IEC/IEEE 82079-1:2019, identification of the supplier",
  check: ({ kit }) => {
    const { name, contact } = kit.identity.supplier
    if (kit.told.some((path) => path.split("/")[0] === "supplier")) return []
    const missing = [...(name === "" ? ["name"] : []), ...(contact === "" ? ["contact"] : [])]
    if (missing.length === 0) return []
    const isNowhere = kit.places.supplier === undefined
    return [
      {
        message: isNowhere ? "the kit names no supplier" : `the supplier has no ${missing.join(" and no ")}`,
        where: placeAt(kit.places, "supplier"),
        why: "A buyer with a missing screw or a doubt must know whom to ask; it stands on guide and card.",
        fix: "Write `supplier: { name: ..., address: ..., contact: ... }`.",
        subjects: ["supplier"],
      },
    ]
  },
})
