/** Words for the order of tightening and for screws that are changed one at a time: type, English, German. */
import { list as listEn } from "./en-phrases.ts"

/** Where a screw lies in its pattern as the person with the driver sees it. */
export type PatternPlace = {
  readonly across: "left" | "middle" | "right"
  readonly upright: "top" | "middle" | "bottom"
}

export type TighteningWords = {
  /** One sentence under the act; `torque` is given where the screws are tightened in two passes. */
  readonly note: (how: {
    readonly pattern: "cross" | "outwards" | "row" | "plain"
    /** A picture numbers the screws. */
    readonly isNumbered: boolean
    readonly passes: { readonly first: "half-torque" | "until-seated"; readonly torque: string } | undefined
  }) => string
  readonly planAlt: (joint: string, places: readonly PatternPlace[]) => string
  /** Under lines that are done once for each of `count` screws. */
  readonly oneByOne: (count: number) => string
}

function placeEn({ across, upright }: PatternPlace): string {
  if (across === "middle" && upright === "middle") return "middle"
  return [upright === "middle" ? "" : upright, across === "middle" ? "middle" : across]
    .filter((word) => word !== "")
    .join(" ")
}

/** English. */
export const enTightening: TighteningWords = {
  note: ({ pattern, isNumbered, passes }) => {
    const ways = {
      cross: "crosswise",
      outwards: "crosswise from the middle outwards",
      row: "from the middle outwards",
      plain: "",
    }
    const parts = [
      ways[pattern],
      isNumbered ? "in the order of the numbers" : "",
      passes === undefined
        ? ""
        : passes.first === "half-torque"
          ? `in two passes: first to about half, then to ${passes.torque}`
          : `in two passes: first until the heads rest, then to ${passes.torque}`,
    ].filter((part) => part !== "")
    const text = parts.join(", ")
    return text === "" ? "" : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
  },
  planAlt: (joint, places) =>
    `Order of tightening, ${joint}: ${listEn(places.map((place, index) => `${index + 1} ${placeEn(place)}`))}`,
  oneByOne: (count) =>
    `One screw at a time: repeat this until all ${count} are changed. Never take out a second one before.`,
}

const acrossDe = { left: "links", middle: "Mitte", right: "rechts" }
const uprightDe = { top: "oben", middle: "", bottom: "unten" }
const joinDe = new Intl.ListFormat("de", { type: "conjunction" })

function placeDe({ across, upright }: PatternPlace): string {
  return [uprightDe[upright], acrossDe[across]].filter((word) => word !== "").join(" ")
}

/** German. */
export const deTightening: TighteningWords = {
  note: ({ pattern, isNumbered, passes }) => {
    const ways = {
      cross: "über Kreuz",
      outwards: "von der Mitte nach außen über Kreuz",
      row: "von der Mitte nach außen",
      plain: "",
    }
    const parts = [
      ways[pattern],
      isNumbered ? "in der Reihenfolge der Nummern" : "",
      passes === undefined
        ? ""
        : passes.first === "half-torque"
          ? `in zwei Durchgängen: zuerst etwa bis zur Hälfte, dann auf ${passes.torque}`
          : `in zwei Durchgängen: zuerst, bis die Köpfe aufliegen, dann auf ${passes.torque}`,
    ].filter((part) => part !== "")
    const text = parts.join(", ")
    return text === "" ? "" : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`
  },
  planAlt: (joint, places) =>
    `Reihenfolge beim Festziehen, ${joint}: ${joinDe.format(places.map((place, index) => `${index + 1} ${placeDe(place)}`))}`,
  oneByOne: (count) =>
    `Eine Schraube nach der anderen: so oft wiederholen, bis alle ${count} gewechselt sind. Nie vorher eine zweite lösen.`,
}
