/** Small kits made by hand: only what the order proof looks at is filled in; acts are written as in a spec. */
import type { Fastener } from "../../src/fasteners/types.ts"
import type { Places } from "../../src/findings/types.ts"
import type { Fit } from "../../src/fit/types.ts"
import type { Bore, Joint, OwnJoint } from "../../src/kit/joint-types.ts"
import type { Act, Assembly, Cable, Kit, Pad, Part, Passage, Socket, Step, Tie, Unit } from "../../src/kit/types.ts"
import type { Verb } from "../../src/spec/types.ts"

export type SmallStep = { readonly id: string; readonly acts: readonly string[]; readonly after?: readonly string[] }

/** What a small kit says; ids alone where nothing else matters. */
export type Small = {
  readonly units?: readonly (Partial<Unit> & { readonly id: string })[]
  readonly parts?: readonly (Partial<Part> & { readonly id: string })[]
  readonly joints?: readonly (Partial<Joint> & {
    readonly id: string
    readonly owner?: string
    readonly intoBore?: string
  })[]
  readonly ownJoints?: readonly (Partial<OwnJoint> & { readonly id: string; readonly unit: string })[]
  readonly cables?: readonly (Partial<Cable> & Pick<Cable, "id" | "ends">)[]
  readonly sockets?: readonly (Partial<Socket> & { readonly id: string; readonly owner: string })[]
  readonly passages?: readonly (Partial<Passage> & { readonly id: string; readonly part: string })[]
  readonly ties?: readonly (Partial<Tie> & { readonly id: string })[]
  readonly pads?: readonly (Partial<Pad> & { readonly id: string; readonly on: string })[]
  readonly assemblies?: readonly (Partial<Assembly> & { readonly id: string; readonly of: readonly string[] })[]
  readonly arrives?: readonly string[]
  readonly steps: readonly SmallStep[]
}

export const emptyFit: Fit = {
  joints: [],
  ownJoints: [],
  ties: [],
  seats: [],
  passages: [],
  cables: [],
  openings: [],
  blockers: [],
  tools: [],
  box: [],
  lookAlikes: [],
  apart: [],
}

const screw: Fastener = {
  designation: "ISO 4762 - M4 x 16 - A2-70",
  written: "ISO 4762 M4x16",
  kind: "screw",
  standard: "ISO 4762",
  head: "cap",
  drive: { kind: "hexagon-socket", size: "3" },
  isThreadForming: false,
  diameterMm: 4,
  pitchMm: 0.7,
  lengthMm: 16,
  propertyClass: "A2-70",
  isClassAssumed: true,
}

/** Places: every step, act and thing stands on a line of its own, in this order of mention. */
export function smallKit(small: Small): Kit {
  const parts = (small.parts ?? []).map((part, index) => fillPart(part, index))
  const units = (small.units ?? []).map((unit) => fillUnit(unit))
  const all = [...units, ...parts]
  const instancesOf = new Map(
    all.flatMap(({ id, instances }) => [[id, instances] as const, ...instances.map((one) => [one, [one]] as const)]),
  )
  const steps = small.steps.map((step) => fillStep(step, instancesOf))
  const kit: Omit<Kit, "places"> = {
    id: "small",
    title: "Small kit",
    variant: { id: "base", title: "Base", axes: {} },
    identity: {
      supplier: { name: "", address: "", contact: "" },
      revision: { id: "A", date: "2026-01-01", guide: "" },
      intendedUse: undefined,
      notFor: undefined,
      persons: undefined,
      minutes: undefined,
      languages: [],
      isInvented: true,
    },
    limits: { tube: undefined, tubeMm: undefined, loadKg: undefined, temperatureC: undefined, others: [] },
    environment: { temperatureC: undefined, sun: false, wet: false, salt: false, vibration: false },
    printing: [],
    units,
    frames: [],
    parts,
    instances: all.flatMap(({ id, instances }) =>
      instances.map((instance) => ({
        id: instance,
        of: id,
        owner: units.some((unit) => unit.id === id) ? ("unit" as const) : ("part" as const),
        mesh: undefined,
        pose: { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], at: [0, 0, 0] },
      })),
    ),
    meshes: {},
    bores: [],
    joints: (small.joints ?? []).map(fillJoint),
    ownJoints: (small.ownJoints ?? []).map(fillOwnJoint),
    assemblies: (small.assemblies ?? []).map((assembly) => ({
      path: `assemblies/${assembly.id}`,
      name: assembly.id,
      instances: assembly.of.flatMap((id) => instancesOf.get(id) ?? []),
      goes: undefined,
      ...assembly,
    })),
    cables: (small.cables ?? []).map(fillCable),
    sockets: (small.sockets ?? []).map((socket) => ({
      path: `sockets/${socket.id}`,
      name: socket.id,
      takes: undefined,
      at: undefined,
      ...socket,
    })),
    passages: (small.passages ?? []).map((passage) => ({
      path: `passages/${passage.id}`,
      name: passage.id,
      opening: undefined,
      isClosed: true,
      clamps: undefined,
      at: undefined,
      ...passage,
    })),
    ties: (small.ties ?? []).map(fillTie),
    pads: (small.pads ?? []).map(fillPad),
    bags: [],
    tools: [],
    consumables: [],
    hazards: [],
    box: [],
    arrives: (small.arrives ?? []).map((text, index) => readAct(text, `arrives/${index}`, instancesOf)),
    steps,
    accepts: [],
    told: [],
  }
  return { ...kit, places: placeAll(kit) }
}

/** A cable end that arrives free. */
export function freeEnd(id: string): Cable["ends"][number] {
  return { id, name: id, envelope: undefined, arrival: { state: "free" } }
}

/** A cable end that is built in. */
export function fixedEnd(id: string): Cable["ends"][number] {
  return { id, name: id, envelope: undefined, arrival: { state: "fixed" } }
}

/** A cable end that arrives in a socket. */
export function connectedEnd(id: string, socket: string): Cable["ends"][number] {
  return { id, name: id, envelope: undefined, arrival: { state: "connected", socket } }
}

function fillPart(part: Partial<Part> & { readonly id: string }, index: number): Part {
  return {
    path: `parts/${part.id}`,
    name: part.id,
    itemReference: index + 1,
    material: undefined,
    massKg: undefined,
    hand: undefined,
    mirrors: undefined,
    bag: undefined,
    instances: [part.id],
    copies: part.instances?.length ?? 1,
    spare: 0,
    goes: undefined,
    covers: [],
    holdsItself: false,
    isFlexible: false,
    opens: false,
    hinge: undefined,
    ownedBy: undefined,
    ...part,
  }
}

function fillUnit(unit: Partial<Unit> & { readonly id: string }): Unit {
  return {
    path: `host/${unit.id}`,
    name: unit.id,
    model: undefined,
    revision: undefined,
    massKg: undefined,
    isPowered: false,
    dischargeMinutes: undefined,
    earth: undefined,
    cooling: undefined,
    up: undefined,
    covers: [],
    instances: [unit.id],
    ...unit,
  }
}

function fillJoint({ owner, intoBore, ...joint }: NonNullable<Small["joints"]>[number]): Joint {
  const bore: Bore = {
    id: intoBore ?? joint.id,
    path: `joints/${joint.id}/into`,
    owner,
    owners: owner === undefined ? [] : [owner],
    kind: "tapped",
    thread: { diameterMm: 4, pitchMm: 0.7 },
    material: undefined,
    depthMm: undefined,
    isThrough: false,
    holeMm: undefined,
    bossMm: undefined,
    count: joint.count ?? 2,
    points: [],
    fastener: undefined,
  }
  return {
    path: `joints/${joint.id}`,
    name: joint.id,
    fastener: screw,
    itemReference: 1,
    count: 2,
    spare: 0,
    washer: undefined,
    washerReference: undefined,
    nutReference: undefined,
    through: [],
    bore,
    bag: undefined,
    side: undefined,
    makerTorqueNm: undefined,
    tried: undefined,
    declaredGripMm: undefined,
    clearanceMm: undefined,
    surface: undefined,
    cureMinutes: undefined,
    points: [],
    pointsAt: "head",
    ...joint,
  }
}

function fillOwnJoint(own: Partial<OwnJoint> & { readonly id: string; readonly unit: string }): OwnJoint {
  return {
    path: `host/${own.id}`,
    fastener: screw,
    count: 2,
    bore: own.id,
    alsoHolds: undefined,
    points: [],
    ...own,
  }
}

function fillCable(cable: Partial<Cable> & Pick<Cable, "id" | "ends">): Cable {
  return {
    path: `cables/${cable.id}`,
    name: cable.id,
    itemReference: undefined,
    lengthMm: undefined,
    diameterMm: undefined,
    slackMm: undefined,
    leastBendRadiusMm: undefined,
    route: [],
    via: [],
    isSupplied: false,
    bag: undefined,
    isLive: false,
    ...cable,
  }
}

function fillTie(tie: Partial<Tie> & { readonly id: string }): Tie {
  return {
    path: `ties/${tie.id}`,
    name: tie.id,
    itemReference: 1,
    kind: "tie",
    count: 1,
    spare: 0,
    widthMm: 4.8,
    thicknessMm: 1.3,
    lengthMm: 300,
    loopStrengthN: undefined,
    holds: [],
    frame: undefined,
    slot: undefined,
    seatHeightMm: undefined,
    pad: undefined,
    until: undefined,
    bag: undefined,
    points: [],
    ...tie,
  }
}

function fillPad(pad: Partial<Pad> & { readonly id: string; readonly on: string }): Pad {
  return {
    path: `pads/${pad.id}`,
    name: pad.id,
    itemReference: 1,
    count: 1,
    spare: 0,
    sizeMm: undefined,
    thicknessMm: undefined,
    isAdhesive: true,
    cureMinutes: undefined,
    bag: undefined,
    instances: [],
    ...pad,
  }
}

function fillStep({ id, acts, after = [] }: SmallStep, instancesOf: ReadonlyMap<string, readonly string[]>): Step {
  return {
    id,
    path: `steps/${id}`,
    title: undefined,
    acts: acts.map((text, index) => readAct(text, `steps/${id}/do/${index}`, instancesOf)),
    text: undefined,
    result: undefined,
    caution: [],
    needsAfter: after.map((step) => ({ step, why: undefined, path: `steps/${id}/needs-after/${step}` })),
    minutes: undefined,
    view: undefined,
    tools: [],
    pinned: undefined,
  }
}

function readAct(text: string, path: string, instancesOf: ReadonlyMap<string, readonly string[]>): Act {
  const pause = /^wait: (\d+) min(?: for (\S+))?$/.exec(text)
  if (pause !== null) {
    const plain = { instances: [], through: undefined, to: undefined, count: undefined, words: undefined }
    return { verb: "wait", path, target: pause[2] ?? "", minutes: Number(pause[1]), ...plain }
  }
  const match = /^([a-z-]+): (?:(\d+) x )?(\S+)(?: (through|from|to) (\S+))?$/.exec(text)
  if (match === null) throw new Error(`act ${text} is not written as a test act`)
  const [, verb = "", count, target = "", preposition, other] = match
  const isPassage = preposition === "through" || (preposition === "from" && verb === "withdraw")
  const moves = ["place", "remove", "open", "close", "stick"].includes(verb)
  return {
    // Tests write only verbs of the glossary.
    verb: verb as Verb,
    path,
    target,
    instances: moves ? (instancesOf.get(target) ?? []) : [],
    through: isPassage ? other : undefined,
    to: isPassage ? undefined : other,
    count: count === undefined ? undefined : Number(count),
    minutes: undefined,
    words: undefined,
  }
}

function placeAll(kit: Omit<Kit, "places">): Places {
  const paths = [
    "",
    ...[
      kit.units,
      kit.parts,
      kit.assemblies,
      kit.joints,
      kit.ownJoints,
      kit.cables,
      kit.sockets,
      kit.passages,
      kit.ties,
      kit.pads,
    ]
      .flat()
      .map(({ path }) => path),
    ...kit.arrives.map(({ path }) => path),
    ...kit.steps.flatMap(({ path, acts, needsAfter }) => [
      path,
      ...acts.map((act) => act.path),
      ...needsAfter.map((one) => one.path),
    ]),
  ]
  return Object.fromEntries(
    paths.map((path, index) => [
      path,
      {
        file: "kit.yaml",
        path: path.split("/"),
        line: index + 1,
        column: 1,
        endLine: index + 1,
        endColumn: 2,
      },
    ]),
  )
}
