import { isTold, placeAt } from "../findings/places.ts"
import { padUnder } from "../fit/seats.ts"
import { atMost } from "../units/compare.ts"
import { mm, trimmed } from "../units/print.ts"
import { defineRule } from "./types.ts"

/** Tolerance of a tube's outside (EN 10305-1 and paint, from memory). */
const tubeToleranceMm = 0.3
/** A pad gives way by this share of its thickness. */
const padShare = 0.5

/**
 * Finds seats that are too wide or too narrow for the tube with its pad: then only a line or two edges touch. What
 * counts is the gap that is left where the seat ends (round) or beside the tube (square). All lengths in mm.
 */
export const seatDoesNotFitTube = defineRule({
  id: "seat-does-not-fit-tube",
  severity: "error",
  source: "geometry: seat against tube + 2 x pad; 0.3 mm for tube and paint, half the pad gives way",
  check: ({ kit, fit }) =>
    fit.seats.flatMap(({ part: id, frame: frameId, seatMm, neededMm, gapMm, contactDeg, isRoundOnSquare }) => {
      const part = kit.parts.find((one) => one.id === id)
      const frame = kit.frames.find((one) => one.id === frameId)
      if (part === undefined || frame === undefined || seatMm === undefined) return []
      const placed = {
        where: placeAt(kit.places, part.path, kit.places[`${part.path}/model`] === undefined ? "shape" : "model"),
        related: [{ message: "the tube is told here", where: placeAt(kit.places, frame.path, "tube") }],
        subjects: [id, frameId],
      }
      if (isRoundOnSquare)
        return [
          {
            message: `seat of \`${id}\` is round ${mm(seatMm.value)}, and \`${frameId}\` is a square tube`,
            why: "a round hollow touches a square tube at its edges only, and turns on it",
            fix: `Give \`${id}\` a seat of square ${mm(neededMm)} in this variant, or correct the tube.`,
            ...placed,
          },
        ]
      if (gapMm === undefined) return []
      const tie = kit.ties.find(
        (one) => one.frame === frameId && one.holds.some((held) => held === id || held.startsWith(`${id}.`)),
      )
      // A pad that was left out leaves the seat too wide.
      if (isTold(kit.told, "pads", ...(tie === undefined ? [] : [`${tie.path}/pad`]))) return []
      const pad = tie === undefined ? undefined : padUnder(kit, tie, id)
      const allowedMm = tubeToleranceMm + padShare * (pad?.thicknessMm ?? 0)
      const halfTurn = Math.min(90, (contactDeg ?? 180) / 2)
      const edgeMm = Math.abs(gapMm) * (frame.profile.kind === "round" ? 1 - Math.cos((halfTurn * Math.PI) / 180) : 1)
      if (atMost(edgeMm, allowedMm)) return []
      const size = frame.profile.kind === "round" ? "round" : "square"
      const message = `seat of \`${id}\` is ${size} ${mm(seatMm.value)}, \`${frameId}\` needs ${mm(neededMm)}`
      const pads = pad?.thicknessMm === undefined ? "" : ` with pad \`${pad.id}\` (2 x ${mm(pad.thicknessMm)})`
      const touches = gapMm > 0 ? "the tube would rock in it" : "the tube would rest on its edges only"
      const why = `the tube needs ${mm(neededMm)}${pads}; ${touches}: ${mm(edgeMm)} of gap at its end, ${trimmed(allowedMm)} allowed`
      const fix = `Give \`${id}\` a seat of ${mm(neededMm)} in this variant, or correct the tube.`
      return [
        {
          message,
          why,
          fix,
          ...placed,
        },
      ]
    }),
})
