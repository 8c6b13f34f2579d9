/** Looking up where a value of the spec was written, and whether it is told to be at fault. */
import type { Place, Places } from "./types.ts"

/**
 * Gives the place of `path` (`joints/foot`) and further names below it; a name that was not written
 * falls back to its nearest owner. Throws only when not even the root has a place: our fault.
 */
export function placeAt(places: Places, path: string, ...names: readonly string[]): Place {
  const keys = [...path.split("/"), ...names].filter((key) => key !== "")
  for (let length = keys.length; length >= 0; length -= 1) {
    const place = places[keys.slice(0, length).join("/")]
    if (place !== undefined) return place
  }
  throw new Error(`no place for ${keys.join("/")}, and none for the root of the spec`)
}

/** True when an error was told about one of these values, or about anything inside one. `told` holds paths. */
export function isTold(told: readonly string[], ...paths: readonly string[]): boolean {
  return told.some((one) => paths.some((path) => one === path || one.startsWith(`${path}/`)))
}
