/** A small hand-made proof for the documents: an arm for a rain gauge on a mast. All its numbers are invented. */
import { readdirSync, readFileSync } from "node:fs"
import type { Root } from "mdast"
import remarkParse from "remark-parse"
import { unified } from "unified"
import type { Assets, Proof } from "../../src/document/types.ts"
import type { Drawing, Drawings } from "../../src/drawing/types.ts"
import type { Fastener } from "../../src/fasteners/types.ts"
import type { BoxItem, Fit, JointFit } from "../../src/fit/types.ts"
import type { Bore, Joint } from "../../src/kit/joint-types.ts"
import type { Act, Hazard, Instance, Kit, Part, Step } from "../../src/kit/types.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import type { Sequence, StepChange } from "../../src/sequence/types.ts"
import type { MakerText } from "../../src/text/types.ts"

const root = new URL("../..", import.meta.url).pathname
const place = { file: "kit.yaml", path: [], line: 1, column: 1, endLine: 1, endColumn: 2 }

/** The maker's Markdown, parsed as the loader does; places do not matter here. */
export function text(markdown: string): MakerText {
  const tree: Root = unified().use(remarkParse).parse(markdown)
  return { source: { text: markdown, where: place, stretches: [] }, root: tree, references: [], numbers: [] }
}

/** Partials, styles and fonts as they lie in the repository. */
export function readAssets(): Assets {
  const readAll = (folder: string, ending: string): Record<string, string> =>
    Object.fromEntries(
      readdirSync(root + folder)
        .filter((name) => name.endsWith(ending))
        .sort()
        .map((name) => [name.slice(0, -ending.length), readFileSync(`${root}${folder}/${name}`, "utf8")]),
    )
  const fontCss = readdirSync(`${root}styles/fonts`)
    .filter((name) => name.endsWith(".woff2"))
    .sort()
    .map((name) => {
      const weight = name.includes("-700-") ? 700 : 400
      const range = name.includes("latin-ext")
        ? "U+0100-02BA,U+02BD-02C5,U+1E00-1E9F,U+20A0-20AB"
        : "U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+2000-206F,U+20AC,U+2122,U+2212"
      const bytes = readFileSync(`${root}styles/fonts/${name}`).toString("base64")
      return `@font-face{font-family:"Noto Sans";font-weight:${weight};src:url(data:font/woff2;base64,${bytes}) format("woff2");unicode-range:${range}}`
    })
    .join("\n")
  return { partials: readAll("partials", ".hbs"), styles: readAll("styles", ".css"), fontCss }
}

function screw(designation: string, lengthMm: number, isThreadForming = false): Fastener {
  return {
    designation,
    written: designation,
    kind: "screw",
    standard: isThreadForming ? undefined : "ISO 4762",
    head: isThreadForming ? "pan" : "cap",
    drive: isThreadForming ? { kind: "cross-pz", size: "1" } : { kind: "hexagon-socket", size: "3" },
    isThreadForming,
    diameterMm: isThreadForming ? 3 : 4,
    pitchMm: isThreadForming ? 1.34 : 0.7,
    lengthMm,
    propertyClass: "A2-70",
    isClassAssumed: false,
  }
}

const footScrew = screw("ISO 4762 - M4 x 14 - A2-70", 14)
const ownScrew = screw("ISO 4762 - M4 x 8 - A2-70", 8)
const capScrew = screw("ISO 4762 - M4 x 12 - A2-70", 12)
const hoodScrew = screw("thread-forming pan M3 x 10 PZ1", 10, true)

function part(id: string, itemReference: number, more: Partial<Part> = {}): Part {
  return {
    id,
    path: `parts/${id}`,
    name: id,
    itemReference,
    material: { name: "PETG", kind: "plastic" },
    massKg: undefined,
    hand: undefined,
    mirrors: undefined,
    bag: undefined,
    instances: [id],
    copies: 1,
    spare: 0,
    goes: undefined,
    covers: [],
    holdsItself: false,
    isFlexible: false,
    opens: false,
    hinge: undefined,
    ownedBy: undefined,
    ...more,
  }
}

function bore(id: string, kind: Bore["kind"], owner: string, count: number): Bore {
  return {
    id,
    path: `joints/${id}/into`,
    owner,
    owners: [owner],
    kind,
    thread: kind === "pilot" ? undefined : { diameterMm: 4, pitchMm: 0.7 },
    material: { name: "aluminium", kind: "aluminium" },
    depthMm: 9,
    isThrough: false,
    holeMm: kind === "pilot" ? 2.5 : undefined,
    bossMm: undefined,
    count,
    points: [],
    fastener: undefined,
  }
}

function joint(id: string, fastener: Fastener, itemReference: number, more: Partial<Joint>): Joint {
  return {
    id,
    path: `joints/${id}`,
    name: id,
    fastener,
    itemReference,
    count: 2,
    spare: 0,
    washer: undefined,
    washerReference: undefined,
    nutReference: undefined,
    through: [],
    bore: bore(id, "tapped", "gauge", 2),
    bag: "a",
    side: undefined,
    makerTorqueNm: undefined,
    tried: undefined,
    declaredGripMm: undefined,
    clearanceMm: undefined,
    surface: undefined,
    cureMinutes: undefined,
    points: [],
    pointsAt: "head",
    ...more,
  }
}

function act(verb: Act["verb"], target: string, more: Partial<Act> = {}): Act {
  return {
    verb,
    path: "",
    target,
    instances: [],
    through: undefined,
    to: undefined,
    count: undefined,
    minutes: undefined,
    words: undefined,
    ...more,
  }
}

function step(id: string, acts: readonly Act[], more: Partial<Step> = {}): Step {
  return {
    id,
    path: `steps/${id}`,
    title: undefined,
    acts: acts.map((each, index) => ({ ...each, path: `steps/${id}/do/${index}` })),
    text: undefined,
    result: undefined,
    caution: [],
    needsAfter: [],
    minutes: undefined,
    view: undefined,
    tools: [],
    pinned: undefined,
    ...more,
  }
}

function instance(id: string, of: string, owner: Instance["owner"]): Instance {
  return { id, of, owner, mesh: undefined, pose: { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 1], at: [0, 0, 0] } }
}

const hazards: readonly Hazard[] = [
  {
    id: "live",
    path: "hazards/live",
    source: text("battery of the gauge"),
    harm: "minor",
    may: "could",
    avoid: text("Switch the gauge off."),
    consequence: undefined,
    signalWord: "caution",
    steps: ["switch-off"],
  },
  {
    id: "fall",
    path: "hazards/fall",
    source: text("arm that slides down the mast"),
    harm: "serious",
    may: "could",
    avoid: text("Keep the place under the mast free of persons until every tie is closed."),
    consequence: text("A falling arm can hit a head."),
    signalWord: "warning",
    steps: ["mast"],
  },
]

/** The kit of the fixture; fields may be replaced. */
export function makeKit(more: Partial<Kit> = {}): Kit {
  const steps = [
    step("switch-off", [act("isolate", "gauge"), act("verify", "gauge")], {
      title: "Switch the gauge off",
      text: text("Switch the gauge off. Wait until the lamp is dark."),
      result: text("The lamp is dark."),
    }),
    step(
      "plate",
      [
        act("unscrew", "gauge.foot"),
        act("set-aside", "gauge.foot"),
        act("place", "plate", { instances: ["plate"] }),
        act("start", "foot"),
        act("tighten", "foot"),
        act("start", "rim"),
        act("tighten", "rim"),
      ],
      {
        title: "Fit the plate under the gauge",
        minutes: 5,
        text: text(
          "Keep the two short screws in the bag for own screws. Start the [long ones](joint:foot) by hand,\nthen tighten to [](torque:foot). The [](part:plate) lies flat within 0.5 mm.",
        ),
        result: text("The [plate](part:plate) does not move."),
      },
    ),
    step(
      "mast",
      [
        act("stick", "grip"),
        act("place", "saddle", { instances: ["saddle.1", "saddle.2"] }),
        act("strap", "clamp"),
        act("trim", "clamp"),
      ],
      {
        title: "Strap the arm to the mast",
        text: text("Close the [](tie:clamp) round the [](frame:mast). Cut the tails flush."),
        result: text("The arm does not turn when you push it with a hand."),
        caution: [text("Have a second person hold the arm.")],
      },
    ),
    step(
      "lead",
      [act("feed", "lead.plug", { through: "hood-hole" }), act("connect", "lead.plug", { to: "gauge.power" })],
      {
        text: text("Put the [](end:lead.plug) through the hood **before** you plug it in."),
      },
    ),
    step(
      "hood",
      [act("place", "hood", { instances: ["hood"] }), act("start", "hood-joint"), act("tighten", "hood-joint")],
      {
        title: "Close the hood",
        text: text("Close the hood. Stop at [](torque:hood-joint)."),
        needsAfter: [{ step: "lead", why: "the plug does not reach the socket once the hood is on", path: "" }],
      },
    ),
    step("done", [act("wait", "all", { minutes: 2.5 }), act("restore", "gauge"), act("inspect", "all")], {
      title: "Switch on and inspect",
      text: text("Switch the gauge on. The lamp is green."),
      result: text("The lamp is green."),
    }),
  ]
  return {
    id: "gauge-arm",
    title: "Arm for a rain gauge",
    variant: { id: "round-32", title: "Round mast 32", axes: { tube: "round-32" } },
    places: { "": place },
    identity: {
      supplier: { name: "Example Weather Parts", address: "1 Invented Road, Nowhere", contact: "help@example.invalid" },
      revision: { id: "B", date: "2026-03-02", guide: "https://example.invalid/arm/b" },
      intendedUse: text("Holds one rain gauge on one upright mast, outdoors."),
      notFor: text("Persons, moving masts, or a place above a path."),
      persons: 2,
      minutes: 45,
      languages: ["en"],
      isInvented: true,
    },
    limits: {
      tube: "round",
      tubeMm: { min: 31.5, max: 32.5 },
      loadKg: 1.2,
      temperatureC: { min: -10, max: 45 },
      others: [{ name: "Wind", value: "up to 12 m/s" }],
    },
    environment: { temperatureC: undefined, sun: true, wet: true, salt: false, vibration: false },
    printing: [],
    units: [
      {
        id: "gauge",
        path: "host/gauge",
        name: "rain gauge",
        model: "RG-1",
        revision: "2",
        massKg: 0.6,
        isPowered: true,
        dischargeMinutes: undefined,
        earth: undefined,
        cooling: undefined,
        covers: [],
        up: [0, 0, 1],
        instances: ["gauge"],
      },
    ],
    frames: [
      {
        id: "mast",
        path: "host/mast",
        name: "mast",
        profile: { kind: "round", diameterMm: 32 },
        instances: ["mast"],
        axis: { at: [0, 0, 0], along: [0, 0, 1] },
        wallMm: undefined,
        material: undefined,
      },
    ],
    parts: [
      part("plate", 1),
      part("saddle", 4, { name: "Saddle with slots", instances: ["saddle.1", "saddle.2"], copies: 2 }),
      part("hood", 8, { name: "Rain hood" }),
    ],
    instances: [
      instance("plate", "plate", "part"),
      instance("saddle.1", "saddle", "part"),
      instance("saddle.2", "saddle", "part"),
      instance("hood", "hood", "part"),
      instance("gauge", "gauge", "unit"),
      instance("mast", "mast", "frame"),
    ],
    meshes: {},
    bores: [],
    joints: [
      joint("foot", footScrew, 2, { through: ["plate"], bore: { ...bore("gauge.foot", "tapped", "gauge", 2) } }),
      joint("rim", capScrew, 3, { through: ["plate"], count: 4, spare: 1 }),
      joint("hood-joint", hoodScrew, 9, {
        through: ["hood"],
        bore: bore("hood-joint", "pilot", "plate", 2),
        bag: "b",
        makerTorqueNm: 0.5,
        tried: "on five prints",
      }),
    ],
    ownJoints: [
      {
        id: "gauge.foot",
        path: "host/gauge/screwed-in/foot",
        unit: "gauge",
        fastener: ownScrew,
        count: 2,
        bore: "gauge.foot",
        alsoHolds: "the inner board",
        points: [],
      },
    ],
    assemblies: [],
    cables: [
      {
        id: "lead",
        path: "cables/lead",
        name: "lead",
        itemReference: 7,
        lengthMm: 600,
        diameterMm: 6,
        slackMm: undefined,
        leastBendRadiusMm: 25,
        ends: [
          { id: "lead.plug", name: "plug of the lead", envelope: undefined, arrival: { state: "free" } },
          { id: "lead.inner", name: "inner end of the lead", envelope: undefined, arrival: { state: "fixed" } },
        ],
        route: [],
        via: ["hood-hole"],
        isSupplied: true,
        bag: undefined,
        isLive: false,
      },
    ],
    sockets: [
      {
        id: "gauge.power",
        path: "host/gauge/sockets/power",
        name: "power socket",
        owner: "gauge",
        takes: undefined,
        at: undefined,
      },
    ],
    passages: [
      {
        id: "hood-hole",
        path: "passages/hood-hole",
        name: "hole in the hood",
        part: "hood",
        opening: undefined,
        isClosed: true,
        clamps: undefined,
        at: undefined,
      },
    ],
    ties: [
      {
        id: "clamp",
        path: "ties/clamp",
        name: "clamp tie",
        itemReference: 6,
        kind: "tie",
        count: 4,
        spare: 1,
        widthMm: 4.8,
        thicknessMm: 1.3,
        lengthMm: 300,
        loopStrengthN: undefined,
        holds: ["saddle"],
        frame: "mast",
        slot: undefined,
        seatHeightMm: undefined,
        pad: undefined,
        until: undefined,
        bag: "b",
        points: [],
      },
    ],
    pads: [
      {
        id: "grip",
        path: "pads/grip",
        name: "grip pad",
        itemReference: 5,
        count: 2,
        spare: 0,
        sizeMm: [60, 20],
        thicknessMm: 1.5,
        on: "saddle",
        isAdhesive: true,
        cureMinutes: undefined,
        bag: "b",
        instances: [],
      },
    ],
    bags: [
      { id: "a", path: "bags/a", name: "Plate", side: undefined, isForOwnScrews: false },
      { id: "b", path: "bags/b", name: "Mast and hood", side: undefined, isForOwnScrews: false },
      { id: "own", path: "bags/own", name: "Screws of the unit", side: undefined, isForOwnScrews: true },
    ],
    tools: [{ id: "rule", path: "tools/rule", name: "Steel rule", isSupplied: false }],
    consumables: [{ id: "wipe", path: "consumables/wipe", name: "Lint-free wipe" }],
    hazards,
    box: [],
    arrives: [],
    steps,
    accepts: [],
    told: [],
    ...more,
  }
}

function jointFit(id: string, valueNm: number | undefined, origin: "maker" | "computed"): JointFit {
  return {
    joint: id,
    gripMm: { value: 6, origin: "measured", from: "measured on plate.stl" },
    reachMm: undefined,
    engagementMm: 8,
    neededEngagementMm: undefined,
    depthLeftMm: undefined,
    clearanceHole: undefined,
    pilotHole: undefined,
    headMm: { diameter: 7, height: 4 },
    screws: [],
    tightening: undefined,
    torque: {
      valueNm,
      origin: valueNm === undefined ? undefined : origin,
      computedNm: undefined,
      governing: "thread in aluminium strips",
      limits: [],
      band: undefined,
      missing: [],
    },
  }
}

function boxItem(item: string, itemReference: number, count: number, more: Partial<BoxItem>): BoxItem {
  return {
    item,
    kind: "part",
    itemReference,
    id: undefined,
    fastener: undefined,
    count,
    spare: 0,
    bag: undefined,
    uses: [],
    ...more,
  }
}

function fastenerItem(fastener: Fastener, reference: number, count: number, bag: string, spare = 0): BoxItem {
  return boxItem(`fastener:${fastener.designation}`, reference, count, { kind: "fastener", fastener, bag, spare })
}

const fit: Fit = {
  ownJoints: [],
  joints: [jointFit("foot", 1.25, "computed"), jointFit("rim", 1.1, "computed"), jointFit("hood-joint", 0.5, "maker")],
  ties: [],
  seats: [],
  cables: [],
  passages: [
    {
      passage: "hood-hole",
      end: "lead.plug",
      envelope: { kind: "rectangle", widthMm: 12, heightMm: 9, cornerMm: 0 },
      opening: { kind: "rectangle", widthMm: 14, heightMm: 10, cornerMm: 0 },
      passes: true,
      turnDeg: 0,
      neededMm: undefined,
      why: "",
    },
  ],
  openings: [],
  blockers: [],
  tools: [
    { id: "hex-key-3", kind: "hex-key", size: "3", torqueNm: undefined, uses: ["foot", "rim", "gauge.foot"] },
    { id: "cross-pz-1", kind: "cross-pz", size: "1", torqueNm: undefined, uses: ["hood-joint"] },
    {
      id: "torque-driver",
      kind: "torque-driver",
      size: "",
      torqueNm: { min: 0.5, max: 1.25 },
      uses: ["foot", "rim", "hood-joint"],
    },
    { id: "side-cutters", kind: "side-cutters", size: "", torqueNm: undefined, uses: ["clamp"] },
  ],
  box: [
    boxItem("part:plate", 1, 1, { id: "plate" }),
    fastenerItem(footScrew, 2, 2, "a"),
    fastenerItem(capScrew, 3, 4, "a", 1),
    boxItem("part:saddle", 4, 2, { id: "saddle" }),
    boxItem("pad:grip", 5, 2, { kind: "pad", id: "grip", bag: "b" }),
    boxItem("tie:clamp", 6, 4, { kind: "tie", id: "clamp", bag: "b", spare: 1 }),
    boxItem("cable:lead", 7, 1, { kind: "cable", id: "lead" }),
    boxItem("part:hood", 8, 1, { id: "hood" }),
    fastenerItem(hoodScrew, 9, 2, "b"),
  ],
  lookAlikes: [
    {
      one: `fastener:${footScrew.designation}`,
      other: `fastener:${capScrew.designation}`,
      difference: "2 mm in length",
    },
  ],
  apart: [],
}

/** Advice and removal are those of the real proof; the rest holds only what the documents look at. */
function makeSequence(kit: Kit, fit: Fit): Sequence {
  const { advice, removal } = proveSequence(kit, fit)
  const steps: StepChange[] = kit.steps.map(({ id, acts }, index) => {
    const of = (verb: Act["verb"]): readonly string[] =>
      acts.filter((each) => each.verb === verb).map((each) => each.target)
    return {
      step: id,
      number: index + 1,
      placed: acts.flatMap((each) => each.instances),
      removed: [],
      jointsStarted: of("start"),
      jointsTightened: of("tighten"),
      jointsRemoved: of("unscrew"),
      assembliesPlaced: [],
      tiesClosed: of("strap"),
      padsStuck: of("stick"),
      cables: [
        {
          cable: "lead",
          passages: ["hood-hole"],
          connected: [{ end: "lead.plug", socket: "gauge.power" }],
          touched: index >= 3,
        },
      ],
      factsGained: [],
      factsLost: [],
      openBags: [],
    }
  })
  return {
    initial: [],
    actions: [],
    goals: [],
    steps,
    presence: { instances: [], joints: [], ties: [], pads: [] },
    links: [
      {
        from: "lead",
        to: "hood",
        kind: "declared",
        fact: undefined,
        reason: "the plug does not reach the socket once the `hood` is on",
      },
    ],
    faults: [],
    factWords: {},
    advice,
    removal,
  }
}

/** The proof of the fixture. */
export function makeProof(more: Partial<Kit> = {}, fitMore: Partial<Fit> = {}): Proof {
  const kit = makeKit(more)
  const allFit = { ...fit, ...fitMore }
  return { kit, fit: allFit, sequence: makeSequence(kit, allFit), findings: [] }
}

function drawing(id: string, widthMm: number, heightMm: number, shows: Partial<Drawing["shows"]> = {}): Drawing {
  const box = (x: number, y: number, width: number, height: number): readonly number[] => [
    x,
    y,
    x + width,
    y,
    x + width,
    y + height,
    x,
    y + height,
  ]
  return {
    id,
    step: undefined,
    widthMm,
    heightMm,
    strokes: [
      {
        role: "new",
        points: box(widthMm * 0.2, heightMm * 0.2, widthMm * 0.5, heightMm * 0.5),
        isClosed: true,
        of: undefined,
      },
      {
        role: "context",
        points: box(widthMm * 0.3, heightMm * 0.5, widthMm * 0.6, heightMm * 0.4),
        isClosed: true,
        of: undefined,
      },
    ],
    fills: [],
    references: [],
    view: { name: "front-left-top", from: [-1, -1, 1], up: [0, 0, 1], isTurned: false },
    scale: 1,
    shows: { placed: [], fastened: [], context: [], exploded: true, ...shows },
  }
}

/** Plain boxes in place of real drawings: the documents only frame and describe them. */
export function makeDrawings(): Drawings {
  return {
    overview: drawing("overview", 88, 66),
    steps: {
      plate: drawing("step-plate", 144, 80, {
        placed: ["plate"],
        fastened: [
          { joint: "foot", count: 2 },
          { joint: "rim", count: 4 },
        ],
      }),
      mast: drawing("step-mast", 144, 90, { placed: ["saddle.1", "saddle.2"], exploded: false }),
      lead: drawing("step-lead", 100, 60),
      hood: drawing("step-hood", 120, 80, { placed: ["hood"], fastened: [{ joint: "hood-joint", count: 2 }] }),
    },
    items: {
      [`fastener:${footScrew.designation}`]: drawing("foot-screw", 22, 9),
      [`fastener:${capScrew.designation}`]: drawing("cap-screw", 20, 9),
      [`fastener:${hoodScrew.designation}`]: drawing("hood-screw", 16, 8),
    },
    plans: {},
  }
}
