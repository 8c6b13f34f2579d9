/** Judges numbers that the maker typed into a text although the data say them. */
import { placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { Step } from "../kit/types.ts"
import type { MakerText } from "../text/types.ts"
import { newtonMetres } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** A typed torque is mostly rounded, and another unit rounds it again. */
const roundingShare = 0.05

/** Finds torques in the texts of a step that are the torque of no joint which that step starts or tightens. In N*m. */
export const typedNumberDiffers = defineRule({
  id: "typed-number-differs",
  severity: "warning",
  source: "practice: a number that stands twice is changed once",
  check: ({ kit, fit }) => {
    const fitOf = new Map(fit.joints.map((one) => [one.joint, one.torque.valueNm]))
    return kit.steps.flatMap((step): readonly Report[] => {
      const joints = [
        ...new Set(step.acts.flatMap(({ verb, target }) => (verb === "start" || verb === "tighten" ? [target] : []))),
      ]
      const known = joints.flatMap((joint) => {
        const valueNm = fitOf.get(joint)
        return valueNm === undefined ? [] : [{ joint, valueNm }]
      })
      const [first] = known
      // Where the torque of one joint is not known, the typed one may be meant for it.
      if (first === undefined || known.length < joints.length) return []
      return textsOf(step).flatMap(({ numbers }) =>
        numbers
          .filter(({ unit, value }) => unit === "N·m" && !known.some(({ valueNm }) => isAbout(value, valueNm)))
          .map(({ written, where }) => ({
            message: `the text says ${written}, joint \`${first.joint}\` is tightened to ${newtonMetres(first.valueNm)}`,
            where,
            why: known.map(({ joint, valueNm }) => `joint \`${joint}\`: ${newtonMetres(valueNm)}`).join(", "),
            fix: `Write \`[](torque:${first.joint})\`, which stays right when the joint is changed.`,
            related: known.map(({ joint }) => ({
              message: `joint \`${joint}\` is declared here`,
              where: placeAt(kit.places, `joints/${joint}`, "torque"),
            })),
            subjects: [step.id, ...known.map(({ joint }) => joint)],
          })),
      )
    })
  },
})

function textsOf({ text, result, caution }: Step): readonly MakerText[] {
  return [text, result, ...caution].filter((one) => one !== undefined)
}

function isAbout(typedNm: number, valueNm: number): boolean {
  return Math.abs(typedNm - valueNm) <= roundingShare * valueNm
}
