/** Parts, units, frames and bores of a spec from the typed long form. */
import type { z } from "zod"
import type { Shape, ShapeHole } from "../../solids/types.ts"
import type { model, shape } from "../schema/fields.ts"
import type { bore, frame, host, part, unit } from "../schema/pieces.ts"
import type { BodySpec, BoreSpec, FastenerCount, FrameSpec, PartSpec, UnitSpec } from "../types.ts"
import { type Build, buildHoles, buildPlacement, buildProfile, down, textAt } from "./context.ts"

/** Gives a unit or a frame of the buyer. */
export function buildHost(build: Build, id: string, given: z.output<typeof host>): UnitSpec | FrameSpec {
  return given.kind === "unit" ? buildUnit(build, id, given) : buildFrame(id, given)
}

function buildUnit(build: Build, id: string, given: z.output<typeof unit>): UnitSpec {
  const path = `host/${id}`
  const text = (name: string) => textAt(build, "host", id, name)
  return {
    id,
    path,
    kind: "unit",
    name: given.name,
    body: buildBody(given, path),
    placement: buildPlacement(given),
    product: given.product,
    revision: given.revision,
    massKg: given.mass,
    isPowered: given.powered,
    dischargeMinutes: given.discharge,
    earth: text("earth"),
    cooling: text("cooling"),
    up: given.up,
    covers: given.covers,
    bores: buildBores(given.bores, `${path}/bores`),
    screwedIn: Object.entries(given["screwed-in"]).map(([own, screws]) => ({
      id: own,
      path: `${path}/screwed-in/${own}`,
      screws: buildFasteners(screws.screws, `${path}/screwed-in/${own}/screws`),
      into: screws.into ?? (Object.hasOwn(given.bores, own) ? own : undefined),
      alsoHolds: screws["also-holds"],
    })),
    sockets: Object.entries(given.sockets).map(([socket, { name, takes, at }]) => ({
      id: socket,
      path: `${path}/sockets/${socket}`,
      name,
      takes,
      at,
    })),
    pieces: Object.entries(given.pieces).map(([piece, value]) => buildPart(piece, value, `${path}/pieces/${piece}`)),
  }
}

function buildFrame(id: string, given: z.output<typeof frame>): FrameSpec {
  return {
    id,
    path: `host/${id}`,
    kind: "frame",
    name: given.name,
    profile: buildProfile(given.tube),
    placement: buildPlacement(given),
    lengthMm: given.length,
    along: given.along ?? [1, 0, 0],
    wallMm: given.wall,
    material: given.material,
  }
}

/** A part of the kit, or a removable piece of a unit. */
export function buildPart(id: string, given: z.output<typeof part>, path = `parts/${id}`): PartSpec {
  return {
    id,
    path,
    name: given.name,
    body: buildBody(given, path),
    material: given.plastic ?? given.material,
    isPlastic: given.plastic !== undefined,
    massKg: given.mass,
    hand: given.hand,
    mirrors: given.mirrors,
    bag: given.bag,
    spare: given.spare,
    copies: buildCopies(given),
    goes: given.goes,
    covers: given.covers,
    holdsItself: given["holds-itself"],
    isFlexible: given.flexible,
    opens: given.opens || given.hinge !== undefined,
    hinge:
      given.hinge === undefined
        ? undefined
        : { at: given.hinge.at, along: given.hinge.along, angleDeg: given.hinge.by },
    bores: buildBores(given.bores, `${path}/bores`),
  }
}

/** One copy without a place stands as exported; further ones without a place are packed, but it is not known where they go. */
function buildCopies(given: z.output<typeof part>): PartSpec["copies"] {
  const { copies } = given
  if (copies === undefined) return [{ name: undefined, placement: buildPlacement(given), isPlaced: true }]
  const named: readonly (readonly [string | undefined, Parameters<typeof buildPlacement>[0]])[] =
    typeof copies === "number"
      ? Array.from({ length: copies }, (_, index) => [undefined, index === 0 ? given : {}] as const)
      : Array.isArray(copies)
        ? copies.map((copy) => [undefined, copy] as const)
        : Object.entries(copies)
  const firstAsExported = named.findIndex(([, copy]) => copy.at === undefined && copy.turn === undefined)
  return named.map(([name, copy], index) => ({
    name,
    placement: buildPlacement(copy),
    isPlaced: copy.at !== undefined || copy.turn !== undefined || index === firstAsExported,
  }))
}

/** Gives the bores of a piece in the order of writing. */
function buildBores(given: Readonly<Record<string, z.output<typeof bore>>>, path: string): readonly BoreSpec[] {
  return Object.entries(given).map(([id, value]) => buildBore(id, value, `${path}/${id}`))
}

/** Gives a bore; what makes its thread tells its kind, and nothing means a pilot hole in plastic. */
export function buildBore(id: string, given: z.output<typeof bore>, path: string): BoreSpec {
  const kind =
    given.insert !== undefined
      ? "insert"
      : given.nut !== undefined
        ? "nut"
        : given.thread !== undefined
          ? "tapped"
          : "pilot"
  const written = given.insert ?? given.nut
  return {
    id,
    path,
    kind,
    thread: given.thread,
    material: given.in,
    depthMm: given.depth,
    isThrough: given["right-through"],
    holeMm: given.hole,
    bossMm: given.boss,
    holes: buildHoles(given.holes, `${path}/holes`),
    fastener: written === undefined ? undefined : { written, path: `${path}/${kind}` },
  }
}

/** Gives count and designation; the designation stays as written. */
export function buildFasteners(given: { readonly count: number; readonly of: string }, path: string): FastenerCount {
  return { count: given.count, fastener: { written: given.of, path: `${path}/of` }, path }
}

function buildBody(
  given: { readonly model?: z.output<typeof model> | undefined; readonly shape?: z.output<typeof shape> | undefined },
  path: string,
): BodySpec | undefined {
  if (given.model !== undefined)
    return { kind: "model", file: given.model.file, unit: given.model.unit, path: `${path}/model` }
  return given.shape === undefined
    ? undefined
    : { kind: "shape", shape: buildShape(given.shape), path: `${path}/shape` }
}

function buildShape(given: z.output<typeof shape>): Shape {
  switch (given.kind) {
    case "box":
      return { kind: "box", sizeMm: given.box, holes: buildShapeHoles(given.holes, given.box[2]) }
    case "plate":
      return {
        kind: "plate",
        sizeMm: given.plate,
        cornerMm: given.corner,
        holes: buildShapeHoles(given.holes, given.plate[2]),
      }
    case "cylinder":
      return { kind: "cylinder", diameterMm: given.cylinder[0], heightMm: given.cylinder[1], boreMm: given.bore }
    case "tube":
      return { kind: "tube", profile: buildProfile(given.tube), lengthMm: given.length, wallMm: given.wall }
    case "saddle":
      return {
        kind: "saddle",
        sizeMm: given.saddle,
        seat: buildProfile(given.seat),
        depthMm: given.depth,
        holes: buildShapeHoles(given.holes, given.saddle[2]),
      }
  }
}

type GivenHole = Extract<z.output<typeof shape>, { kind: "box" }>["holes"][number]

/** A hole without z begins on the top face. A hole without a size makes nothing and was told. */
function buildShapeHoles(given: readonly GivenHole[], topMm: number): readonly ShapeHole[] {
  return given.flatMap((hole): readonly ShapeHole[] => {
    const [x = 0, y = 0, z = topMm] = hole.at
    const common = { at: [x, y, z] as const, along: hole.along ?? down, depthMm: hole.depth ?? 0 }
    if (hole.diameter !== undefined) return [{ ...common, diameterMm: hole.diameter }]
    return hole.size === undefined ? [] : [{ ...common, sizeMm: hole.size }]
  })
}
