/** Resolves the spec of one variant: names become things, models become meshes in place, texts get references that exist. */
import type { Outcome } from "../findings/types.ts"
import type { FrameSpec, PartSpec, Spec, UnitSpec } from "../spec/types.ts"
import { resolveAct } from "./acts.ts"
import { resolveAssembly } from "./assemblies.ts"
import type { Bodies } from "./bodies.ts"
import { type RawBore, resolveBore } from "./bores.ts"
import { resolveCable, resolvePassage, resolveSockets } from "./cables.ts"
import type { Desk, Tools } from "./desk.ts"
import { wordsOf } from "./desk.ts"
import { reportDoubtfulWords } from "./doubtful-words.ts"
import { resolveHazard } from "./hazards.ts"
import { numberItems } from "./item-references.ts"
import type { Bore, Joint } from "./joint-types.ts"
import { type JointDraft, resolveJoint } from "./joints.ts"
import { readMaterial } from "./materials.ts"
import { gatherNames } from "./names.ts"
import { resolveOwnJoints } from "./own-joints.ts"
import { resolveCovers, resolvePart, withoutDoubles } from "./parts.ts"
import { type Placed, placeFrame, placePart, placeUnit, unitVector } from "./pieces.ts"
import type { Shop } from "./shop.ts"
import { resolveStep } from "./steps.ts"
import { resolveBags, resolveBox } from "./supply.ts"
import { resolveText } from "./texts.ts"
import { resolvePad, resolveTie } from "./ties.ts"
import type { Frame, Identity, Instance, Kit, Unit } from "./types.ts"

export type { ReadModel } from "./desk.ts"

/**
 * Resolves one spec. Names that nothing has, models that cannot be used, holes whose number differs from the screws
 * and texts with references into nothing are findings at the place that names them; what they concern is left out of
 * the kit, so that no rule meets it again. Everything else is there. Ids, numbers and keys are the same in every run.
 */
export function resolveKit(spec: Spec, tools: Tools): Outcome<Kit> {
  const desk: Desk = { ...tools, spec, findings: [], unknown: new Map(), told: new Set() }
  const { units, frames, parts, pieces } = sortHosts(desk)
  reportDoubtfulWords(desk)
  const bodies: Bodies = { meshes: new Map(), keys: new Map() }
  const placed = new Map<string, Placed>()
  const keep = <One extends Placed>(id: string, one: One): One => {
    placed.set(id, one)
    for (const instance of one.instances) {
      if (instance.id !== id) placed.set(instance.id, { instances: [instance], isWhole: one.isWhole })
    }
    return one
  }
  for (const unit of units) keep(unit.id, placeUnit(desk, bodies, unit))
  const placedFrames = frames.map((frame) => ({ frame, ...keep(frame.id, placeFrame(desk, bodies, frame)) }))
  for (const part of [...parts, ...pieces.map(({ piece }) => piece)]) keep(part.id, placePart(desk, bodies, part))
  const shop: Shop = {
    ...desk,
    names: gatherNames(spec),
    designations: { read: new Map(), reported: new Set() },
    bodies,
    finder: { meshes: bodies.meshes, found: tools.found ?? new Map() },
    placed,
  }
  const ownedBy = new Map(pieces.map(({ piece, unit }) => [piece.id, unit]))
  const partDrafts = [...parts, ...pieces.map(({ piece }) => piece)].map((part) =>
    resolvePart(shop, part, ownedBy.get(part.id)),
  )
  const rawBores = resolveBores(shop, units, [...parts, ...pieces.map(({ piece }) => piece)])
  const jointDrafts = spec.joints.flatMap((joint) => resolveJoint(shop, joint, rawBores) ?? [])
  const cableDrafts = spec.cables.map((cable) => resolveCable(shop, cable))
  const tieDrafts = spec.ties.map((tie) => resolveTie(shop, tie))
  const pads = spec.pads.flatMap((pad) => resolvePad(shop, pad) ?? [])
  const padDrafts = pads.map(({ pad }) => pad)
  const resolved = {
    joints: new Set(jointDrafts.map(({ id }) => id)),
    pads: new Map(padDrafts.map(({ id, instances }) => [id, instances])),
  }
  const arrives = spec.arrives.flatMap((act) => resolveAct(shop, resolved, act) ?? [])
  const steps = spec.steps.map((step) => resolveStep(shop, resolved, step))
  const references = numberItems({
    steps,
    arrives,
    parts: partDrafts,
    joints: jointDrafts,
    ties: tieDrafts,
    pads: padDrafts,
    cables: cableDrafts,
  })
  const numberOf = (key: string): number => references.get(key) ?? 0
  const joints = jointDrafts.map((joint): Joint => withReferences(joint, numberOf))
  const instances = [...placedOnce(placed), ...pads.flatMap((pad) => pad.instances)].sort(byId)
  const { id, title, axes } = spec.variant
  const kit: Kit = {
    id: spec.kit,
    title: spec.title,
    variant: { id, title, axes },
    places: spec.places,
    identity: identityOf(shop),
    limits: {
      tube: spec.fits.tube,
      tubeMm: spec.fits.tubeMm,
      loadKg: spec.fits.loadKg,
      temperatureC: spec.fits.temperatureC,
      others: spec.fits.others,
    },
    environment: spec.environment,
    printing: spec.printing.map(({ id: material, holeMm, outsideMm, shrinkagePercent, compensatedIn }) => ({
      material,
      holeMm,
      outsideMm,
      shrinkagePercent,
      compensatedIn,
    })),
    units: units.map((unit) => unitOf(shop, unit)),
    frames: placedFrames.map(({ frame, axis, instances: own }) => frameOf(frame, axis, own)),
    parts: partDrafts.map((part) => ({ ...part, itemReference: numberOf(`part:${part.id}`) })),
    instances,
    meshes: usedMeshes(bodies, instances),
    bores: allBores(rawBores, joints),
    joints,
    ownJoints: units.flatMap((unit) => resolveOwnJoints(shop, unit, aimedBores(rawBores, joints), joints)),
    assemblies: spec.assemblies.map((assembly) => resolveAssembly(shop, assembly)),
    cables: cableDrafts.map((cable) => ({ ...cable, itemReference: references.get(`cable:${cable.id}`) })),
    sockets: units.flatMap((unit) => resolveSockets(shop, unit)),
    passages: spec.passages.flatMap((passage) => resolvePassage(shop, passage)),
    ties: tieDrafts.map((tie) => ({ ...tie, itemReference: numberOf(`tie:${tie.id}`) })),
    pads: padDrafts.map((pad) => ({ ...pad, itemReference: numberOf(`pad:${pad.id}`) })),
    bags: resolveBags(shop),
    tools: spec.tools.map(({ id: tool, path, name, isSupplied }) => ({ id: tool, path, name, isSupplied })),
    consumables: spec.consumables.map(({ id: consumable, path, name }) => ({ id: consumable, path, name })),
    hazards: spec.hazards.flatMap((hazard) => resolveHazard(shop, hazard)),
    box: resolveBox(shop),
    arrives,
    steps,
    accepts: spec.accepts,
    told: toldPaths(shop),
  }
  return { value: kit, findings: shop.findings }
}

/** Paths of all that is at fault, as reading and resolving told, and of what an unknown name may have meant. */
function toldPaths({ spec, findings, told }: Desk): readonly string[] {
  const wrong = findings
    .filter(({ severity }) => severity === "error")
    .map(({ where }) => where.path.join("/"))
    .filter((path) => path !== "")
  return [...new Set([...spec.told, ...wrong, ...told])].sort()
}

/** Units, frames, parts and pieces, each name once. */
function sortHosts(desk: Desk): {
  readonly units: readonly UnitSpec[]
  readonly frames: readonly FrameSpec[]
  readonly parts: readonly PartSpec[]
  readonly pieces: readonly { readonly piece: PartSpec; readonly unit: string }[]
} {
  const taken = new Map<string, string>()
  const hosts = withoutDoubles(desk, taken, desk.spec.hosts)
  const units = hosts.filter((host) => host.kind === "unit")
  const parts = withoutDoubles(desk, taken, desk.spec.parts)
  const pieces = units.flatMap((unit) =>
    withoutDoubles(desk, taken, unit.pieces).map((piece) => ({ piece, unit: unit.id })),
  )
  return { units, frames: hosts.filter((host) => host.kind === "frame"), parts, pieces }
}

function resolveBores(
  shop: Shop,
  units: readonly UnitSpec[],
  parts: readonly PartSpec[],
): ReadonlyMap<string, RawBore> {
  const bores = new Map<string, RawBore>()
  const owners = [
    ...units.map(({ id, bores: own }) => ({ id, own, material: undefined })),
    ...parts.map(({ id, bores: own, material, isPlastic }) => ({
      id,
      own,
      material: readMaterial(material, isPlastic),
    })),
  ]
  for (const { id, own, material } of owners) {
    for (const spec of own) {
      const raw = resolveBore(shop, spec, `${id}.${spec.id}`, { id, material })
      if (raw !== undefined) bores.set(raw.bore.id, raw)
    }
  }
  return bores
}

/** Bores entered from the side of the joint that uses them later, where that is known. */
function aimedBores(raw: ReadonlyMap<string, RawBore>, joints: readonly Joint[]): ReadonlyMap<string, RawBore> {
  const aimed = new Map(joints.flatMap(({ bore }) => (bore.points.length > 0 ? [[bore.id, bore] as const] : [])))
  return new Map([...raw].map(([id, one]) => [id, { ...one, bore: aimed.get(id) ?? one.bore }]))
}

/** Bores as the joints that use them aim at them; those that no joint uses as they are. */
function allBores(raw: ReadonlyMap<string, RawBore>, joints: readonly Joint[]): readonly Bore[] {
  const aimed = new Map(joints.map(({ bore }) => [bore.id, bore]))
  const named = [...raw.values()].map(({ bore }) => aimed.get(bore.id) ?? bore)
  return [...named, ...[...aimed.values()].filter(({ id }) => !raw.has(id))]
}

function withReferences(joint: JointDraft, numberOf: (key: string) => number): Joint {
  const nut = joint.bore.kind === "nut" ? joint.bore.fastener : undefined
  return {
    ...joint,
    itemReference: numberOf(`fastener:${joint.fastener.designation}`),
    washerReference: joint.washer === undefined ? undefined : numberOf(`fastener:${joint.washer.designation}`),
    nutReference: nut === undefined ? undefined : numberOf(`fastener:${nut.designation}`),
  }
}

function identityOf(shop: Shop): Identity {
  const { supplier, revision, persons, minutes, languages, isInvented, intendedUse, notFor } = shop.spec
  return {
    supplier,
    revision,
    intendedUse: resolveText(shop, intendedUse),
    notFor: resolveText(shop, notFor),
    persons,
    minutes,
    languages,
    isInvented,
  }
}

function unitOf(shop: Shop, spec: UnitSpec): Unit {
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    model: spec.product,
    revision: spec.revision,
    massKg: spec.massKg,
    isPowered: spec.isPowered,
    dischargeMinutes: spec.dischargeMinutes,
    earth: resolveText(shop, spec.earth),
    cooling: resolveText(shop, spec.cooling),
    up: unitVector(spec.up),
    covers: resolveCovers(shop, spec),
    instances: shop.placed.get(spec.id)?.instances.map(({ id }) => id) ?? [],
  }
}

function frameOf(spec: FrameSpec, axis: Frame["axis"], instances: readonly Instance[]): Frame {
  return {
    id: spec.id,
    path: spec.path,
    name: spec.name ?? wordsOf(spec.id),
    profile: spec.profile,
    instances: instances.map(({ id }) => id),
    axis,
    wallMm: spec.wallMm,
    material: spec.material,
  }
}

function placedOnce(placed: ReadonlyMap<string, Placed>): readonly Instance[] {
  return [...new Map([...placed.values()].flatMap(({ instances }) => instances.map((one) => [one.id, one]))).values()]
}

function usedMeshes(bodies: Bodies, instances: readonly Instance[]): Kit["meshes"] {
  const used = [...new Set(instances.flatMap(({ mesh }) => mesh ?? []))].sort()
  return Object.fromEntries(
    used.flatMap((key) => {
      const mesh = bodies.meshes.get(key)
      return mesh === undefined ? [] : [[key, mesh]]
    }),
  )
}

function byId(one: Instance, other: Instance): number {
  return one.id < other.id ? -1 : one.id > other.id ? 1 : 0
}
