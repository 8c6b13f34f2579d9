/** How an act is named that may have words of the maker in place of a target. */
import type { Act } from "../../kit/types.ts"

/** The id in backticks, `everything` for all, else the maker's words. */
export function nameTarget({ target, words }: Act): string {
  if (target === "all") return "everything"
  return target === "" ? (words ?? "something") : `\`${target}\``
}
