/**
 * The meshes of the demo kit and of the test kits, made from a few sizes. `write-models.ts` writes them,
 * `models.test.ts` holds the committed files against them. Every part stands where it belongs in the assembly, except the saddles: their outer face lies in x = 0.
 * All sizes are invented.
 */
import { writeStl } from "../../src/solids/index.ts"
import type { Kernel, Mesh } from "../../src/solids/types.ts"
import { assemble, type Corners, makeBar, makeBox, makePrism, rectangle, roundedRectangle } from "./solids.ts"
import { makeWeatherModels } from "./weather-models.ts"

/** Gives every model file by its path from the root of the repository. */
export function makeModels(kernel: Kernel): ReadonlyMap<string, Uint8Array> {
  const cradle = "guides/pump-cradle/models"
  const arm = "tests/guides/rain-gauge-arm/models"
  const meshes: readonly (readonly [string, Mesh])[] = [
    [`${cradle}/driver.stl`, makeDriver(kernel)],
    [`${cradle}/cheek-left.stl`, makeLeftCheek(kernel)],
    [`${cradle}/cheek-right.stl`, makeRightCheek(kernel)],
    [`${cradle}/hood.stl`, makeHood(kernel)],
    [`${cradle}/saddle-32.stl`, makeSaddle(kernel, { lengthMm: 36, seatMm: 35, halfWidthMm: 32 })],
    [`${cradle}/saddle-48.stl`, makeSaddle(kernel, { lengthMm: 36, seatMm: 51, halfWidthMm: 36 })],
    [`${arm}/gauge.stl`, makeGauge(kernel)],
    [`${arm}/plate.stl`, makeArmPlate(kernel)],
    [`${arm}/hood.stl`, makeArmHood(kernel)],
    [`${arm}/saddle.stl`, makeArmSaddles(kernel, 32)],
    [`${arm}/saddle-48.stl`, makeArmSaddles(kernel, 48)],
    ...makeWeatherModels(kernel).map(([file, mesh]): [string, Mesh] => [`guides/mast-logger/models/${file}`, mesh]),
  ]
  return new Map(meshes.map(([path, mesh]) => [path, writeStl(mesh)]))
}

/** Both ends of the unit lie at x = -55 and 55, its sockets look to the front (-y), its fins up. */
function makeDriver(kernel: Kernel): Mesh {
  const body: Corners = [
    [-35, 52],
    [-31, 48],
    [31, 48],
    [35, 52],
    [35, 80],
    [-35, 80],
  ]
  const fins = Array.from({ length: 11 }, (_, index) => {
    const middle = -52 + index * 10.4
    return makePrism(
      "x",
      [
        [-35, 79],
        [35, 79],
        [35, 97],
        [32, 100],
        [-32, 100],
        [-35, 97],
      ],
      middle - 1.5,
      middle + 1.5,
    )
  })
  const pumpSocket = makePrism("y", roundedRectangle(57, -38, 71, -18, 2), -39, -34)
  const panelSocket = makePrism("y", roundedRectangle(54, 8, 74, 40, 2), -39, -34)
  const lamp = makeBar("y", 72, -8, 4, -36.2, -34)
  const sideBores = [
    ...[-18, 18].map((y) => makeBar("x", y, 64, 3.3, -56, -43)),
    ...[-18, 0, 18].map((y) => makeBar("x", y, 64, 3.3, 43, 56)),
  ]
  return assemble(
    kernel,
    [makePrism("x", body, -55, 55), ...fins, pumpSocket, panelSocket, lamp],
    [
      makePrism("y", rectangle(59, -35.5, 69, -20.5), -40, -33),
      makePrism("y", rectangle(56.5, 10.5, 71.5, 37.5), -40, -33),
      ...sideBores,
    ],
  )
}

const cheekLow = roundedRectangle(-30, 30, 30, 78, 8)
const cheekFront = roundedRectangle(-44, 50, 0, 78, 4)

/** 8 mm thick, two screws into the unit, two into the saddle. */
function makeLeftCheek(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [
      makePrism("x", cheekLow, -63, -55),
      makePrism("x", cheekFront, -63, -55),
      ...[56, 72].map((z) => makeBar("y", z, -60, 9, -44, -30)),
    ],
    [
      ...[-18, 18].map((y) => makeBar("x", y, 64, 4.5, -64, -54)),
      ...[-20, 20].map((y) => makeBar("x", y, 38, 4.3, -64, -54)),
      ...[56, 72].map((z) => makeBar("y", z, -60, 2.4, -45, -32)),
      makePrism("x", roundedRectangle(-14, 44, 14, 56, 6), -64, -54),
    ],
  )
}

/** 6 mm thick with two ribs, three screws into the unit, two into the saddle. */
function makeRightCheek(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [
      makePrism("x", cheekLow, 55, 61),
      makePrism("x", cheekFront, 55, 61),
      makePrism("x", rectangle(-13, 33, -10, 57), 60, 64),
      makePrism("x", rectangle(10, 33, 13, 57), 60, 64),
      ...[56, 72].map((z) => makeBar("y", z, 59, 8, -44, -30)),
    ],
    [
      ...[-18, 0, 18].map((y) => makeBar("x", y, 64, 4.5, 54, 62)),
      ...[-20, 20].map((y) => makeBar("x", y, 38, 4.3, 54, 62)),
      ...[56, 72].map((z) => makeBar("y", z, 59, 2.4, -45, -32)),
    ],
  )
}

/** Closes the face with the sockets; slides in from the front until its ears lie on the cheeks. */
function makeHood(kernel: Kernel): Mesh {
  const outside: Corners = [
    [-78, 53],
    [-75, 50],
    [-36, 50],
    [-36, 78],
    [-62, 78],
    [-78, 66],
  ]
  const inside: Corners = [
    [-75.5, 54],
    [-74, 52.5],
    [-30, 52.5],
    [-30, 75.5],
    [-61.2, 75.5],
    [-75.5, 64.8],
  ]
  const ears = [
    makePrism("y", roundedRectangle(50, -66, 78, -52, 3), -48, -44),
    makePrism("y", roundedRectangle(50, 52, 78, 65, 3), -48, -44),
  ]
  const dripEdge = makePrism(
    "x",
    [
      [-80, 63.5],
      [-74, 63.5],
      [-74, 66],
      [-78, 66],
    ],
    -54,
    54,
  )
  return assemble(
    kernel,
    [makePrism("x", outside, -54, 54), dripEdge, ...ears],
    [
      makePrism("x", inside, -51.5, 51.5),
      makePrism("z", roundedRectangle(-10, -68, 10, -56, 1), 45, 53),
      ...[56, 72].flatMap((z) => [-60, 59].map((x) => makeBar("y", z, x, 3.4, -49, -43))),
    ],
  )
}

type SaddleSizes = { readonly lengthMm: number; readonly seatMm: number; readonly halfWidthMm: number }

/** The seat's axis is the x axis; two slots for ties across it, two pilot holes in the end face that lies in x = 0. */
function makeSaddle(kernel: Kernel, { lengthMm, seatMm, halfWidthMm }: SaddleSizes): Mesh {
  const block: Corners = [
    [-halfWidthMm + 3, 6],
    [halfWidthMm - 3, 6],
    [halfWidthMm, 9],
    [halfWidthMm, 34],
    [26, 44],
    [-26, 44],
    [-halfWidthMm, 34],
    [-halfWidthMm, 9],
  ]
  const slots = [9, lengthMm - 9].map((x) => makeBox([x - 3, -50, 28.5], [x + 3, 50, 31]))
  const pilots = [-20, 20].map((y) => makeBar("x", y, 38, 3.2, -1, 16))
  const relief = makePrism("z", roundedRectangle(8, -10, lengthMm - 8, 10, 3), 36, 50)
  const seat = makeBar("x", 0, 0, seatMm, -5, lengthMm + 5)
  return assemble(kernel, [makePrism("x", block, 0, lengthMm)], [seat, relief, ...slots, ...pilots])
}

/** The rain gauge: a funnel body that stands on its foot at z = 38, its socket to the front. */
function makeGauge(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [makeBox([-30, -25, 38], [30, 25, 50]), makeBar("z", 0, 0, 44, 50, 98), makeBox([-9, -34, 39], [9, -24, 49])],
    [
      makeBar("z", 0, 0, 38, 68, 103),
      makeBox([-6.5, -40, 41], [6.5, -28, 47]),
      ...[-20, 20].map((x) => makeBar("z", x, 0, 3.3, 37, 47)),
    ],
  )
}

/** The arm's plate lies on the saddles and carries the gauge; two posts take the hood's screws. */
function makeArmPlate(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [
      makePrism("z", roundedRectangle(-36, -37, 36, 28, 5), 32, 38),
      ...[-30, 30].map((x) => makeBar("z", x, -32, 7, 32, 44)),
    ],
    [
      ...[-20, 20].map((x) => makeBar("z", x, 0, 4.5, 31, 39)),
      ...[-30, 30].map((x) => makeBar("z", x, -32, 2.5, 34, 45)),
    ],
  )
}

/** A box over the socket with a floor in front of the plate and an ear on each side. */
function makeArmHood(kernel: Kernel): Mesh {
  return assemble(
    kernel,
    [
      makePrism("z", roundedRectangle(-26, -64, 26, -26, 2), 38, 56),
      makePrism("z", rectangle(-35, -37, -25, -27), 44, 46.5),
      makePrism("z", rectangle(25, -37, 35, -27), 44, 46.5),
    ],
    [
      makeBox([-23.5, -61.5, 40], [23.5, -20, 53.5]),
      makeBox([-23.5, -37.5, 30], [23.5, -20, 41]),
      makePrism("y", rectangle(43, -7, 53, 7), -70, -60),
      ...[-30, 30].map((x) => makeBar("z", x, -32, 3.4, 40, 50)),
    ],
  )
}

/** Both saddles in one file, in their places, as a maker exports them. */
function makeArmSaddles(kernel: Kernel, tubeMm: number): Mesh {
  const saddles = [-20, 20].map((x) =>
    assemble(
      kernel,
      [makePrism("x", rectangle(-30, 8, 30, 32), x - 8, x + 8)],
      [makeBar("x", 0, 0, tubeMm, x - 20, x + 20), makeBox([x - 3, -40, 26.5], [x + 3, 40, 29])],
    ),
  )
  return assemble(kernel, saddles, [])
}
