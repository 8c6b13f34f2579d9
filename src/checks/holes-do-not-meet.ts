import { isTold, placeAt } from "../findings/places.ts"
import type { Report } from "../findings/types.ts"
import type { ClampedPath, ScrewPath } from "../fit/types.ts"
import type { Joint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import type { Vec3 } from "../solids/types.ts"
import { lengthOf } from "../solids/vectors.ts"
import { mm, trimmed } from "../units/print.ts"
import { inputPaths } from "./joint-inputs.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"

/** One screw that a clamped part does not let pass. */
type Stopped = { readonly screw: ScrewPath; readonly at: ClampedPath }

/** Finds screws that meet the material of a clamped part, or none of it, or are driven out of the piece of their bore. */
export const holesDoNotMeet = defineRule({
  id: "holes-do-not-meet",
  severity: "error",
  source: "geometry: rays along each screw through the meshes of the clamped parts and of the bore",
  check: ({ kit, fit }) => {
    const found = fit.joints.flatMap(({ joint: id, screws }) => {
      const joint = kit.joints.find((one) => one.id === id)
      if (joint === undefined || isTold(kit.told, ...inputPaths(kit, joint))) return []
      if (screws.length > 0 && screws.every(({ isReversed }) => isReversed)) {
        return [{ key: `out of ${joint.bore.id}`, report: tellReversed(kit, joint) }]
      }
      const stopped = stoppedIn(screws)
      const [first] = stopped
      return first === undefined ? [] : [{ key: causeOf(first), report: tellStopped(kit, joint, first, stopped) }]
    })
    // A part that is out of place stops the screws of all its joints: one cause, one finding.
    return found
      .filter(({ key }, index) => found.findIndex((one) => one.key === key) === index)
      .map(({ report }) => report)
  },
})

/**
 * Screws stopped by the first part that stops any. A part that some screws go through and others pass by is meant for
 * the former, unless a screw goes through no part at all.
 */
function stoppedIn(screws: readonly ScrewPath[]): readonly Stopped[] {
  const isMetBySome = (part: string): boolean =>
    screws.some(({ clamped }) => clamped.some((one) => one.part === part && one.kind !== "missed"))
  const all = screws.flatMap((screw) => {
    const isBesideAll = screw.clamped.every(({ kind }) => kind === "missed")
    return screw.clamped
      .filter(({ kind, part }) => kind === "blocked" || (kind === "missed" && (isBesideAll || !isMetBySome(part))))
      .map((at) => ({ screw, at }))
  })
  return all.filter(({ at }) => at.part === all[0]?.at.part)
}

function causeOf({ at }: Stopped): string {
  const offset = at.beside?.offsetMm.map((value) => trimmed(value, 1)).join(" ") ?? ""
  return `${at.part} ${at.kind} ${offset}`
}

function tellStopped(kit: Kit, joint: Joint, first: Stopped, stopped: readonly Stopped[]): Report {
  const { part } = first.at
  const screws = joint.count === 1 ? "the screw" : "the screws"
  const offsets = stopped.flatMap(({ at }) => (at.beside === undefined ? [] : [at.beside.offsetMm]))
  const farthest = offsets.reduce<Vec3 | undefined>(
    (far, one) => (far === undefined || lengthOf(one) > lengthOf(far) ? one : far),
    undefined,
  )
  const offMm = farthest === undefined ? 0 : lengthOf(farthest)
  const isSame = offsets.every((one) => one.every((value, axis) => Math.abs(value - (offsets[0]?.[axis] ?? 0)) < 0.05))
  const place = first.screw.at.map((value) => trimmed(value, 1)).join(", ")
  const direction = farthest === undefined ? "" : inWords(farthest)
  const common = {
    where: placeAt(kit.places, joint.path, "through"),
    subjects: [joint.id, part],
    scene: { subjects: [joint.id, part], pointMm: first.screw.at, direction: first.screw.along },
  }
  if (first.at.kind === "missed") {
    return {
      ...common,
      message: fitMessage(`${screws} of joint \`${joint.id}\` pass${joint.count === 1 ? "es" : ""} beside \`${part}\``),
      why: `nothing of \`${part}\` lies round the thread at ${place}`,
      fix: `Move \`${part}\` to its place, or correct the bore \`${joint.bore.id}\`.`,
    }
  }
  if (first.at.beside === undefined) {
    return {
      ...common,
      message: fitMessage(`\`${part}\` has no hole for ${screws} of joint \`${joint.id}\``),
      why: `the axis of the thread at ${place} runs into its material, and no hole runs that way`,
      fix: `Make holes in \`${part}\`, or correct the bore \`${joint.bore.id}\`.`,
    }
  }
  if (offMm < 0.05) {
    return {
      ...common,
      message: fitMessage(`\`${part}\` stands in the way of ${screws} of joint \`${joint.id}\`, beyond its hole`),
      why: `the hole lies on the axis of the thread at ${place}, other material of \`${part}\` too`,
      fix: `Lengthen the hole, or shorten the part.`,
    }
  }
  const holeMm = first.at.beside.diameterMm
  const move =
    isSame && stopped.length === joint.count ? `Move \`${part}\` ${inWords(negative(farthest))}, or correct` : "Correct"
  return {
    ...common,
    message: fitMessage(`hole of \`${part}\` stands ${mm(rounded(offMm))} beside ${screws} of joint \`${joint.id}\``),
    why: `from the axis of the thread at ${place} the hole of ${mm(holeMm)} lies ${direction}; the screw is ${mm(joint.fastener.diameterMm)}`,
    fix: `${move} the places of its holes or of bore \`${joint.bore.id}\`.`,
  }
}

function tellReversed(kit: Kit, joint: Joint): Report {
  const owner = joint.bore.owner ?? joint.bore.id
  return {
    message: fitMessage(`screws of joint \`${joint.id}\` are driven out of \`${owner}\`, not into it`),
    where: placeAt(kit.places, joint.bore.path, "holes"),
    why: `behind the mouth of \`${joint.bore.id}\` there is no material, before it there is`,
    fix: "Turn the direction of the bore round: `along` is the way the screw is driven.",
    related: [{ message: "used here", where: placeAt(kit.places, joint.path) }],
    subjects: [joint.id],
  }
}

/** `5 mm to the left and 2 mm up`, the parts below 0.05 mm left out. */
function inWords(offset: Vec3): string {
  const names = [
    ["to the left", "to the right"],
    ["to the front", "to the back"],
    ["down", "up"],
  ] as const
  return names
    .flatMap(([less, more], axis) => {
      const value = offset[axis] ?? 0
      return Math.abs(value) < 0.05 ? [] : [`${mm(rounded(Math.abs(value)))} ${value < 0 ? less : more}`]
    })
    .join(" and ")
}

function negative([x, y, z]: Vec3 = [0, 0, 0]): Vec3 {
  return [-x, -y, -z]
}

/** To 0.1 mm, as facets of holes allow no more. */
function rounded(valueMm: number): number {
  return Math.round(valueMm * 10) / 10
}
