/** Phrases that the English table is built from. */
import { makeMeasures } from "./measures.ts"
import type { Counted, FastenerKind, Stop } from "./types.ts"

/** Numbers in English form. */
export const measures = makeMeasures("en", {
  between: (from, to) => `${from} to ${to}`,
  upTo: (value) => `up to ${value}`,
  from: (value) => `${value} or more`,
})
const join = new Intl.ListFormat("en", { type: "conjunction" })

/** Names joined into one phrase. */
export const list = (names: readonly string[]): string => join.format(names)

/** `the plate (1)` for one, `2 × saddle (4)` for more. */
export const the = ({ count, what }: Counted): string =>
  count === 1 ? `the ${what}` : `${measures.times(count)} ${what}`

const views: Readonly<Record<string, string>> = { top: "above", up: "above", bottom: "below", down: "below" }

/** Words of a view or side: `front-left-top`. */
export const direction = (name: string): string =>
  name
    .split("-")
    .map((part) => views[part] ?? part)
    .join(" ")

const sides: Readonly<Record<string, string>> = {
  left: "left side",
  right: "right side",
  up: "top",
  bottom: "underside",
  down: "underside",
}

/** A side of the work that is turned to the reader; other names stay as they are. */
export const side = (name: string): string => sides[name] ?? name

/** A count with the right form of its word. */
export const times = (count: number, one: string, many: string): string =>
  `${measures.number(count)}\u00a0${count === 1 ? one : many}`

/** The command not to turn screws further than told. */
export const stopAt = (stops: readonly Stop[]): string =>
  list(
    stops.map(({ items, torque }, index) => {
      const when = torque === undefined ? `when the head of ${items} rests on its seat` : `at ${torque} for ${items}`
      return index === 0 ? `Stop ${when}` : when
    }),
  ) + "."

/** A revision after the name of a product; one that has its own word (`hardware 2`) needs no other. */
export const sayRevision = (revision: string | undefined): string =>
  revision === undefined ? "" : /^\p{L}{2}/u.test(revision) ? `, ${revision}` : `, revision ${revision}`

const screws: Readonly<Record<FastenerKind["head"], string>> = {
  cap: "cap screw",
  button: "button-head screw",
  countersunk: "countersunk screw",
  pan: "pan-head screw",
  hexagon: "hexagon-head screw",
  none: "set screw",
}

/** The kind of a fastener; what it is called in the shop. */
export const sayKind = ({ kind, head, isThreadForming }: FastenerKind): string => {
  if (kind !== "screw") return { nut: "nut", washer: "washer", insert: "threaded insert" }[kind]
  return isThreadForming ? `thread-forming ${screws[head]}` : screws[head]
}
