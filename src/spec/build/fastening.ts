/** Joints, ties, pads, cables and passages of a spec from the typed long form. */
import type { z } from "zod"
import type { cable, joint, pad, passage, tie } from "../schema/fastening.ts"
import type { KitInput } from "../schema/kit.ts"
import type { CableSpec, JointSpec, PadSpec, PassageSpec, TieSpec, Triple } from "../types.ts"
import { buildHoles, buildOutline, buildPlacement, buildPoints, buildRange, down } from "./context.ts"
import { buildBore, buildFasteners } from "./pieces.ts"

/** The way of a frame's axis when nothing is said. */
const alongX: Triple = [1, 0, 0]

/** Gives a joint; its bore is a name, or a bore written in place. */
export function buildJoint(id: string, given: z.output<typeof joint>): JointSpec {
  const path = `joints/${id}`
  const { into } = given
  return {
    id,
    path,
    name: given.name,
    screws: buildFasteners(given.screws, `${path}/screws`),
    washer: given.washer === undefined ? undefined : { written: given.washer, path: `${path}/washer` },
    nut: given.nut === undefined ? undefined : { written: given.nut, path: `${path}/nut` },
    spare: given.spare,
    through: given.through,
    into: typeof into === "object" ? buildBore(id, into, `${path}/into`) : into,
    holes: buildHoles(given.holes, `${path}/holes`),
    bag: given.bag,
    side: given.side,
    torqueNm: given.torque,
    tried: given.tried,
    gripMm: given.grip,
    clearanceMm: given.clearance,
    surface: given.surface,
    cureMinutes: given.cure,
  }
}

/** Gives a tie; a loop without a direction lies round the axis of its frame. A tie without sizes was told and is left out. */
export function buildTie(id: string, given: z.output<typeof tie>, hosts: KitInput["host"]): readonly TieSpec[] {
  const frame = given.round === undefined ? undefined : hosts[given.round]
  const axis = frame?.kind === "frame" ? (frame.along ?? alongX) : alongX
  const sizes = given.ties ?? given.bands
  if (sizes === undefined) return []
  return [
    {
      id,
      path: `ties/${id}`,
      name: given.name,
      kind: given.ties === undefined ? "band" : "tie",
      count: sizes.count,
      spare: given.spare,
      widthMm: sizes.width,
      thicknessMm: given.thickness,
      lengthMm: sizes.length,
      loopStrengthN: given.strength,
      holds: given.holds,
      round: given.round,
      slot:
        given.slot === undefined
          ? undefined
          : { in: given.slot.in, widthMm: given.slot.size[0], heightMm: given.slot.size[1] },
      seatHeightMm: given["seat-height"],
      pad: given.pad,
      until: given.until,
      bag: given.bag,
      points: buildPoints(given.at, axis),
    },
  ]
}

/** Gives a pad; without places its copies are empty. */
export function buildPad(id: string, given: z.output<typeof pad>): PadSpec {
  return {
    id,
    path: `pads/${id}`,
    name: given.name,
    count: given.pads.count,
    spare: given.spare,
    sizeMm: given.pads.size,
    on: given.on,
    isAdhesive: given.adhesive,
    cureMinutes: given.cure,
    bag: given.bag,
    copies: given.copies.map(buildPlacement),
  }
}

/** A cable belongs to the box unless it says otherwise, or one of its ends hangs on something when the work begins. */
export function buildCable(id: string, given: z.output<typeof cable>): CableSpec {
  const ends = Object.entries(given.ends)
  return {
    id,
    path: `cables/${id}`,
    name: given.name,
    lengthMm: given.length,
    diameterMm: given.diameter,
    slackMm: given.slack,
    leastBendRadiusMm: given["least-bend"],
    ends: ends.map(([end, value]) => ({
      id: end,
      path: `cables/${id}/ends/${end}`,
      name: value.name,
      envelope: buildOutline(value.size),
      isFixed: value.fixed,
      connectedTo: value.connected,
    })),
    route: given.route,
    via: given.via,
    isSupplied: given.supplied ?? !ends.some(([, end]) => end.fixed || end.connected !== undefined),
    bag: given.bag,
    isLive: given.live,
  }
}

/** Gives an opening; `at` only when its middle was written. */
export function buildPassage(id: string, given: z.output<typeof passage>): PassageSpec {
  return {
    id,
    path: `passages/${id}`,
    name: given.name,
    in: given.in,
    opening: buildOutline(given.opening),
    isClosed: given.closed,
    clamps: buildGland(given.clamps),
    at: given.at === undefined ? undefined : { at: given.at, along: given.along ?? down },
  }
}

/** Gives the diameters of cable that a gland holds, as far as they are told; nothing for an opening that is no gland. */
function buildGland(given: z.output<typeof passage>["clamps"]): PassageSpec["clamps"] {
  if (given === undefined || given === false) return undefined
  return { cableMm: given === true ? undefined : buildRange(given) }
}
