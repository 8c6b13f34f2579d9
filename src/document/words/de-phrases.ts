/** Phrases that the German table is built from. */
import { makeMeasures } from "./measures.ts"
import type { Counted, FastenerKind, Stop } from "./types.ts"

/** Numbers in German form. */
export const measures = makeMeasures("de", {
  between: (from, to) => `${from} bis ${to}`,
  upTo: (value) => `bis ${value}`,
  from: (value) => `ab ${value}`,
})
const join = new Intl.ListFormat("de", { type: "conjunction" })

/** Names joined into one phrase. */
export const list = (names: readonly string[]): string => join.format(names)

/** `Platte (1)` for one, `2 × Sattel (4)` for more. */
export const some = ({ count, what }: Counted): string => (count === 1 ? what : `${measures.times(count)} ${what}`)

const views: Readonly<Record<string, string>> = {
  front: "vorn",
  back: "hinten",
  left: "links",
  right: "rechts",
  top: "oben",
  up: "oben",
  bottom: "unten",
  down: "unten",
}

/** Words of a view or side: `front-left-top`. */
export const direction = (name: string): string =>
  name
    .split("-")
    .map((part) => views[part] ?? part)
    .join(" ")

const sides: Readonly<Record<string, string>> = {
  front: "Vorderseite",
  back: "Rückseite",
  left: "linke Seite",
  right: "rechte Seite",
  top: "Oberseite",
  up: "Oberseite",
  bottom: "Unterseite",
  down: "Unterseite",
}

/** A side of the work that is turned to the reader; other names stay as they are. */
export const side = (name: string): string => sides[name] ?? name

/** A count with the right form of its word. */
export const times = (count: number, one: string, many: string): string =>
  `${measures.number(count)}\u00a0${count === 1 ? one : many}`

/** The command not to turn screws further than told. */
export const stopAt = (stops: readonly Stop[]): string =>
  list(
    stops.map(({ items, torque }) =>
      torque === undefined ? `${items} nur anziehen, bis der Kopf aufliegt` : `${items} nur bis ${torque} anziehen`,
    ),
  ) + "."

/** A revision after the name of a product; one that has its own word (`hardware 2`) needs no other. */
export const sayRevision = (revision: string | undefined): string =>
  revision === undefined ? "" : /^\p{L}{2}/u.test(revision) ? `, ${revision}` : `, Ausgabe ${revision}`

/** Names of the German editions of the standards (from memory): ISO 7380-1 and ISO 7045 are both Flachkopfschrauben. */
const screws: Readonly<Record<FastenerKind["head"], string>> = {
  cap: "Zylinderschraube",
  button: "Flachkopfschraube",
  countersunk: "Senkschraube",
  pan: "Flachkopfschraube",
  hexagon: "Sechskantschraube",
  none: "Gewindestift",
}

/** The kind of a fastener; what it is called in the shop. */
export const sayKind = ({ kind, head, isThreadForming }: FastenerKind): string => {
  if (kind !== "screw") return { nut: "Mutter", washer: "Scheibe", insert: "Gewindeeinsatz" }[kind]
  return isThreadForming ? `gewindeformende ${screws[head]}` : screws[head]
}
