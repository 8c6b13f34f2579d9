/** Judges whether the screws of a unit go through the piece of it that they hold. */
import { isTold, placeAt } from "../findings/places.ts"
import { lengthOf } from "../solids/vectors.ts"
import { mm, trimmed } from "../units/print.ts"
import { inputPaths } from "./joint-inputs.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** Finds own screws of a unit that meet the material of the piece of their name, or pass it by. All lengths in mm. */
export const ownScrewsMissPiece = defineRule({
  id: "own-screws-miss-piece",
  severity: "error",
  source: "geometry: rays along each screw through the mesh of the piece",
  check: ({ kit, fit }) =>
    fit.ownJoints.flatMap(({ ownJoint: id, piece, screws }) => {
      const own = kit.ownJoints.find((one) => one.id === id)
      const bore = kit.bores.find((one) => one.id === own?.bore)
      if (own === undefined || bore === undefined) return []
      if (isTold(kit.told, own.path, ...inputPaths(kit, { ...own, through: [piece], bore }))) return []
      const stopped = screws.flatMap((screw) =>
        screw.clamped.flatMap((at) => (at.kind === "blocked" || at.kind === "missed" ? [{ screw, at }] : [])),
      )
      const [first] = stopped
      if (first === undefined) return []
      const { screw, at } = first
      const offMm = at.beside === undefined ? undefined : lengthOf(at.beside.offsetMm)
      const place = screw.at.map((value) => trimmed(value, 1)).join(", ")
      const message =
        at.kind === "missed"
          ? `screws \`${id}\` pass beside \`${piece}\`, which they are said to hold`
          : offMm === undefined
            ? `\`${piece}\` has no hole for screws \`${id}\`, which are said to hold it`
            : `hole of \`${piece}\` stands ${mm(Math.round(offMm * 10) / 10)} beside screws \`${id}\``
      return [
        {
          message: fitMessage(message, `screws \`${id}\` do not go through \`${piece}\``),
          where: placeAt(kit.places, own.path),
          why: `Screws with the name of a piece hold that piece; ${stopped.length} of ${own.count} do not go through it, the first at ${place}.`,
          fix: `Correct the place of \`${piece}\` or of bore \`${bore.id}\`, or give the screws another name when they hold something else.`,
          related: [{ message: "the bore is written here", where: placeAt(kit.places, bore.path) }],
          subjects: [id, piece],
          scene: { subjects: [id, piece], pointMm: screw.at, direction: screw.along },
        },
      ]
    }),
})
