/** Screws of a unit that hold one of its pieces: whether they go through the piece, as far as meshes and holes are known. */
import type { Joint, OwnJoint } from "../kit/joint-types.ts"
import type { Kit } from "../kit/types.ts"
import { computeScrewPaths } from "./screw-paths.ts"
import { computeTighteningSequence } from "./tightening-sequence.ts"
import type { OwnJointFit } from "./types.ts"

/** Follows the screws of each unit that have the name of one of its pieces and sit in a known bore. */
export function computeOwnJoints(kit: Kit): readonly OwnJointFit[] {
  return kit.ownJoints.flatMap((own) => {
    const piece = kit.parts.find(({ id, ownedBy }) => ownedBy === own.unit && own.id === `${own.unit}.${id}`)
    const joint = piece === undefined ? undefined : asJoint(kit, own, piece.id)
    if (piece === undefined || joint === undefined) return []
    return [
      {
        ownJoint: own.id,
        piece: piece.id,
        screws: computeScrewPaths(kit, joint),
        tightening: computeTighteningSequence(kit, joint),
      },
    ]
  })
}

/** The screws as a joint that clamps the piece; undefined where the places of its bore are not those of the screws. */
function asJoint(
  kit: Kit,
  { id, path, fastener, count, bore: boreId, points }: OwnJoint,
  piece: string,
): Joint | undefined {
  const bore = kit.bores.find((one) => one.id === boreId)
  if (bore === undefined || points.length !== count || bore.points.length !== count) return undefined
  return {
    id,
    path,
    name: id,
    fastener,
    itemReference: 0,
    count,
    spare: 0,
    washer: undefined,
    washerReference: undefined,
    nutReference: undefined,
    through: [piece],
    bore,
    bag: undefined,
    side: undefined,
    makerTorqueNm: undefined,
    tried: undefined,
    declaredGripMm: undefined,
    clearanceMm: undefined,
    surface: undefined,
    cureMinutes: undefined,
    points,
    pointsAt: "mouth",
  }
}
