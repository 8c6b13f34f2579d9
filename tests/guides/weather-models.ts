/**
 * The meshes of the weather kit: a logger in a printed case on a mast. The mast's axis is the z axis, the case hangs in
 * front of it (-y). Every part stands where it belongs, except what has copies. All sizes are invented.
 */
import type { Kernel, Mesh } from "../../src/solids/types.ts"
import { assemble, makeBar, makeBox, makePrism, rectangle, roundedRectangle } from "./solids.ts"

/** Gives every model of the kit by its file name. */
export function makeWeatherModels(kernel: Kernel): readonly (readonly [string, Mesh])[] {
  return [
    ["logger.stl", makeLogger(kernel)],
    ["terminal-cap.stl", makeTerminalCap(kernel)],
    ["case.stl", makeCase(kernel)],
    ["door.stl", makeDoor(kernel)],
    ["hinge-pin.stl", makeHingePin(kernel)],
    ["gland-12.stl", makeGland(kernel, -40, 12)],
    ["gland-8.stl", makeGland(kernel, 40, 8.5)],
    ["seat-round-50.stl", makeSeat(kernel, makeBar("z", 0, 0, 53, -30, 30))],
    ["seat-square-50.stl", makeSeat(kernel, makePrism("z", roundedRectangle(-26.5, -26.5, 26.5, 26.5, 4), -30, 30))],
  ]
}

/** A body on a flange with four holes; below, a recess with both sockets that the terminal cap closes. */
function makeLogger(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [
      makePrism("y", roundedRectangle(-68, -52, 68, 52, 5), -65, -62),
      makePrism("y", roundedRectangle(-50, -38, 50, 38, 3), -98, -64),
      makeBar("y", 36, 0, 14, -99.5, -97),
      ...[-18, 18].map((x) => makeBar("z", x, -87, 16, -32, -25)),
    ],
    [
      makeBox([-34, -99, -51], [34, -78, -26]),
      ...[-60, 60].flatMap((z) => [-45, 45].map((x) => makeBar("y", z, x, 4.5, -66, -61))),
      ...[-30, 30].map((x) => makeBar("y", -20, x, 2.5, -99, -90)),
    ],
  )
}

function makeTerminalCap(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [makePrism("y", roundedRectangle(-52, -38, -14, 38, 3), -101, -98)],
    [-30, 30].map((x) => makeBar("y", -20, x, 3.4, -102, -97)),
  )
}

/** An open box: four bosses for the logger, two for the door's screws, two ears of the hinge, two holes for glands. */
function makeCase(kernel: Kernel): Mesh {
  const bosses = [-60, 60].flatMap((z) => [-45, 45].map((x) => makeBar("y", z, x, 12, -62, -48)))
  const latches = [-80, 80].map((z) => makePrism("y", rectangle(z - 7, 59, z + 7, 73), -110, -90))
  const ears = [60, -70].flatMap((z) => [
    makeBox([-90, -110, z], [-74, -100, z + 10]),
    makeBox([-90, -116, z], [-76, -109, z + 10]),
  ])
  return assemble(
    kernel,
    [...openBox(kernel), ...bosses, ...latches, ...ears],
    [
      ...[-60, 60].flatMap((z) => [-45, 45].map((x) => makeBar("y", z, x, 5.6, -63, -52))),
      ...[-80, 80].map((z) => makeBar("y", z, 66, 5.6, -111, -98)),
      ...[-55, 55].flatMap((z) => [-22, 22].map((x) => makeBar("y", z, x, 4.5, -51, -44))),
      ...[-40, 40].map((x) => makeBar("z", x, -80, 16.4, -101, -95)),
      makeBar("z", -83, -108, 4.2, -80, 80),
    ],
  )
}

function openBox(kernel: Kernel): readonly Mesh[] {
  const outside = makePrism("y", roundedRectangle(-100, -75, 100, 75, 6), -110, -45)
  const inside = makePrism("y", roundedRectangle(-96, -71, 96, 71, 3), -111, -50)
  return [assemble(kernel, [outside], [inside])]
}

function makeDoor(kernel: Kernel): Mesh {
  const ears = [70.5, -59.5].map((z) => makeBox([-90, -116, z], [-70, -110.5, z + 10]))
  const barrels = [70.5, -59.5].map((z) => makeBar("z", -83, -108, 12, z, z + 10))
  return assemble(
    kernel,
    [
      makePrism("y", rectangle(-103, -74, 103, 78), -116, -112),
      makePrism("x", rectangle(-116, 99.5, -104, 103), -74, 78),
      ...ears,
      ...barrels,
      ...[-80, 80].map((z) => makeBar("y", z, 66, 14, -116, -110)),
    ],
    [
      ...[-80, 80].map((z) => makeBar("y", z, 66, 4.5, -117, -109)),
      makeBar("z", -83, -108, 4.2, -70, 90),
      makePrism("y", roundedRectangle(-20, -30, 40, 30, 3), -117, -114.5),
    ],
  )
}

function makeHingePin(kernel: Kernel): Mesh {
  return assemble(kernel, [makeBar("z", -83, -108, 4, 57, 81), makeBar("z", -83, -108, 7, 80.5, 83)], [])
}

/** A cable gland in the bottom of the case: thread through the wall, body and cap below. */
function makeGland(kernel: Kernel, x: number, openingMm: number): Mesh {
  return assemble(
    kernel,
    [makeBar("z", x, -80, 16, -101, -90), makeBar("z", x, -80, 22, -108, -100), makeBar("z", x, -80, 19, -120, -107)],
    [makeBar("z", x, -80, openingMm, -121, -89)],
  )
}

/** A block between case and mast, its middle at z = 0: two holes for inserts in front, a slot for the band behind them. */
function makeSeat(kernel: Kernel, tube: Mesh): Mesh {
  return assemble(
    kernel,
    [makePrism("z", roundedRectangle(-36, -45, 36, -8, 3), -14, 14)],
    [tube, makeBox([-40, -33, -5], [40, -30.2, 5]), ...[-22, 22].map((x) => makeBar("y", 0, x, 5.6, -46, -35))],
  )
}
