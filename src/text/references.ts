/** Links in a text: references to things of the kit, and addresses outside. */
import { nearNames } from "../findings/near.ts"

/** What a text may point at, and what becomes of it in a document. */
export const referenceKinds = [
  "part",
  "joint",
  "torque",
  "screw",
  "tie",
  "pad",
  "bag",
  "cable",
  "end",
  "passage",
  "socket",
  "step",
  "tool",
  "unit",
  "frame",
  "count",
] as const

/** What a link's address is. */
export type LinkAddress =
  | { readonly is: "reference"; readonly kind: string; readonly target: string }
  | { readonly is: "outside" }
  | { readonly is: "unknown-kind"; readonly kind: string; readonly near: readonly string[] }
  | { readonly is: "refused"; readonly scheme: string }
  | { readonly is: "nothing" }

/** Schemes that only lead to a page, a mail or a call; all others can run code or read files. */
const safeSchemes: ReadonlySet<string> = new Set(["http", "https", "mailto", "tel"])
const dangerousSchemes: ReadonlySet<string> = new Set([
  "javascript",
  "vbscript",
  "data",
  "file",
  "blob",
  "about",
  "ftp",
  "view-source",
])

/** Reads the address of a link. Letters that browsers pass over (tabs, line ends, blanks in front) are taken out first. */
export function readAddress(url: string): LinkAddress {
  // Browsers drop these letters when they read an address (WHATWG URL Standard, 4.4), so `java\tscript:` is a scheme to them.
  const address = [...url].filter((letter) => letter > " ").join("")
  const match = /^([A-Za-z][A-Za-z0-9+.-]*):(.*)$/.exec(address)
  if (match === null) return address === "" ? { is: "nothing" } : { is: "refused", scheme: "" }
  const [, written = "", target = ""] = match
  const kind = written.toLowerCase()
  if (safeSchemes.has(kind)) return { is: "outside" }
  if (referenceKinds.some((known) => known === kind))
    return target === "" ? { is: "nothing" } : { is: "reference", kind, target }
  if (dangerousSchemes.has(kind)) return { is: "refused", scheme: kind }
  return { is: "unknown-kind", kind: written, near: nearNames(kind, referenceKinds) }
}
