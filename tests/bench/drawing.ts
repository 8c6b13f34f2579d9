/** A scene of about 19 000 triangles for the benchmark of one drawing: a finned unit on a tube, two plates, screws. */

import { chooseView } from "../../src/drawing/choose-view.ts"
import { drawScene, fitScale, traceScene } from "../../src/drawing/draw-scene.ts"
import { buildFastenerSolid } from "../../src/drawing/fastener-solid.ts"
import { flattenScene } from "../../src/drawing/flatten.ts"
import { traceLines } from "../../src/drawing/hidden-lines.ts"
import { fillItemBuffer } from "../../src/drawing/item-buffer.ts"
import { circle, loftLoop } from "../../src/drawing/loft.ts"
import { prepareMesh } from "../../src/drawing/prepare-mesh.ts"
import { cornerViews } from "../../src/drawing/projection.ts"
import type { StepScene, Thing, ThingRole } from "../../src/drawing/things.ts"
import { poseAlong, restPose } from "../../src/drawing/vector.ts"
import type { Fastener } from "../../src/fasteners/types.ts"
import { loadKernel } from "../../src/solids/index.ts"
import type { Pose, Vec3 } from "../../src/solids/types.ts"
import { type Timing, timeMiddle } from "./measure.ts"

const screw: Fastener = {
  designation: "ISO 4762 - M4 x 16",
  written: "ISO 4762 M4x16",
  kind: "screw",
  standard: "ISO 4762",
  head: "cap",
  drive: { kind: "hexagon-socket", size: "3" },
  isThreadForming: false,
  diameterMm: 4,
  pitchMm: 0.7,
  lengthMm: 16,
  propertyClass: "8.8",
  isClassAssumed: true,
}

/** The scene: 16 screws, plates with many holes, fins, a fine tube. */
async function makeBenchScene(): Promise<{ scene: StepScene; triangleCount: number }> {
  const kernel = await loadKernel()
  const things: Thing[] = []
  const add = (id: string, role: ThingRole, mesh: Thing["mesh"], pose: Pose): void => {
    things.push({ id, role, mesh, pose, moved: undefined })
  }
  const at = (x: number, y: number, z: number): Pose => ({ ...restPose, at: [x, y, z] })
  const unit = kernel.make({ kind: "box", sizeMm: [160, 90, 30], holes: [] })
  add("unit", "host", prepareMesh(unit), at(-80, -45, 30))
  const fin = prepareMesh(kernel.make({ kind: "box", sizeMm: [160, 3, 22], holes: [] }))
  for (let index = 0; index < 12; index += 1) add(`fin.${index}`, "host", fin, at(-80, -44 + 7.5 * index, 60))
  const holes = Array.from({ length: 14 }, (_, index) => ({
    at: [10 + 22 * (index % 7), 10 + 40 * Math.floor(index / 7), 0] as Vec3,
    along: [0, 0, 1] as Vec3,
    diameterMm: 4.5,
    depthMm: 0,
  }))
  const plate = prepareMesh(kernel.make({ kind: "plate", sizeMm: [160, 60, 6], cornerMm: 8, holes }))
  add("plate.front", "new", plate, { rotation: [1, 0, 0, 0, 0, -1, 0, 1, 0], at: [-80, -85, 10] })
  add("plate.back", "new", plate, { rotation: [1, 0, 0, 0, 0, -1, 0, 1, 0], at: [-80, 91, 10] })
  const solid = prepareMesh(buildFastenerSolid(screw))
  const wanted: string[] = []
  for (let index = 0; index < 16; index += 1) {
    const side = index % 2 === 0 ? -1 : 1
    const place = Math.floor(index / 2)
    const x = -70 + 22 * (place % 7)
    const z = 20 + 40 * Math.floor(place / 7)
    const id = `screw:side.${index + 1}`
    add(id, "new", solid, poseAlong([x, side * 115, z], [0, side, 0]))
    wanted.push(id)
  }
  const [outside, inside] = [circle(19, 480), circle(17, 480)]
  const tube = loftLoop([
    { zMm: -200, points: inside },
    { zMm: -200, points: outside },
    { zMm: 200, points: outside },
    { zMm: 200, points: inside },
  ])
  add("tube", "host", prepareMesh(tube), poseAlong([0, 0, 0], [1, 0, 0]))
  const scene: StepScene = {
    things,
    paths: [],
    motions: [],
    turns: [],
    places: [],
    wanted: [
      { itemReference: 1, count: 2, of: ["plate.front", "plate.back"] },
      { itemReference: 2, count: 16, of: wanted },
    ],
  }
  return { scene, triangleCount: things.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0) }
}

/** Times the line engine alone, and a whole step drawing with its choice among eight views. */
export async function benchDrawing(): Promise<readonly Timing[]> {
  const { scene, triangleCount } = await makeBenchScene()
  const [view] = cornerViews
  if (view === undefined) throw new Error("there is no view")
  const note = `${triangleCount} triangles`
  const room = { widthMm: 144, heightMm: 94 }
  const trace = (): unknown => {
    const flat = flattenScene(scene.things, view)
    return traceLines(flat, fillItemBuffer(flat, 1100))
  }
  trace()
  const lines = await timeMiddle("hidden lines of one view", 5, trace, note)
  const whole = await timeMiddle(
    "whole step drawing, view chosen among eight",
    5,
    () => {
      const chosen = chooseView(scene, undefined, undefined).view
      return drawScene(traceScene(scene, chosen), fitScale(scene, chosen, room), room, undefined)
    },
    note,
  )
  return [lines, whole]
}
