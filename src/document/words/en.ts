/** Our printed words in English. Signal words are locked by ANSI Z535.4 / ISO 3864-2. */
import { enAfter } from "./en-after.ts"
import { direction, list, measures, sayKind, sayRevision, side, stopAt, the, times } from "./en-phrases.ts"
import { enTightening } from "./tightening.ts"
import type { Words } from "./types.ts"

/** English. */
export const en: Words = {
  language: "en",
  measures,
  list,
  // "Side plate" becomes "side plate"; "PETG plate" and "M4 plate" stay.
  nameInSentence: (name, isOwnLanguage) =>
    isOwnLanguage && /^[A-Z][a-z]/.test(name) ? name.charAt(0).toLowerCase() + name.slice(1) : name,
  endOf: (end, cable) => `${end} of the ${cable}`,
  fastener: sayKind,

  signal: { danger: "DANGER", warning: "WARNING", caution: "CAUTION", notice: "NOTICE" },
  signalMeaning: {
    danger: "Death or serious injury will result if you do not avoid the hazard.",
    warning: "Death or serious injury could result if you do not avoid the hazard.",
    caution: "Minor or moderate injury could result if you do not avoid the hazard.",
    notice: "Damage to the kit or to your equipment could result. Nobody is hurt.",
  },
  consequence: (harm, may) => {
    const result = {
      death: "death",
      serious: "serious injury",
      moderate: "moderate injury",
      minor: "minor injury",
      damage: "damage",
    }[harm]
    return may === "will" ? `The result is ${result}.` : `The result could be ${result}.`
  },

  acts: {
    inWords: (verb, words) =>
      `${{ inspect: "Check", verify: "Make sure", clean: "Clean", align: "Align", turn: "Turn", wait: "Wait" }[verb as string] ?? "Do"}: ${words}`,
    place: (what, position) => `Place ${the(what)}${position === undefined ? "" : ` in position “${position}”`}`,
    remove: (what) => `Take off ${the(what)}`,
    align: (what) => `Align the ${what}`,
    start: (items, through, into) =>
      `Start ${items} by hand` +
      (through.length === 0 ? "" : `, through the ${list(through)}`) +
      (into.length === 0 ? "" : `, into the ${list(into)}`),
    tighten: (items, tool) => `Tighten ${items}${tool === undefined ? "" : ` with the ${tool}`} to`,
    tightenToSeat: (items, tool) =>
      `Tighten ${items}${tool === undefined ? "" : ` with the ${tool}`} until the head rests on its seat, then stop`,
    unscrew: (items, from) => `Unscrew ${items}${from === undefined ? "" : ` from the ${from}`}`,
    feed: (end, passage, turnDeg) =>
      `Feed the ${end} through the ${passage}${turnDeg === undefined ? "" : `, turned by about ${turnDeg}°`}`,
    layIn: (cable, passage) => `Lay the ${cable} into the ${passage}`,
    withdraw: (end, passage) => `Pull the ${end} back${passage === undefined ? "" : ` out of the ${passage}`}`,
    connect: (end, socket) => `Connect the ${end}${socket === undefined ? "" : ` to the ${socket}`}`,
    disconnect: (end, socket) => `Disconnect the ${end}${socket === undefined ? "" : ` from the ${socket}`}`,
    strap: (items, round, until) =>
      `Close ${items}${round === undefined ? "" : ` round the ${round}`}${until === undefined ? "" : ` until ${until}`}`,
    trim: (items) => `Cut the tails flush: ${items}`,
    clean: (what) => `Clean the ${what}`,
    stick: (items, on) => `Stick ${items}${on === undefined ? "" : ` on the ${on}`}`,
    open: (what) => `Open the ${what}`,
    close: (what) => `Close the ${what}`,
    tightenGland: (gland) => `Tighten the ${gland} by hand until it holds the cable`,
    loosenGland: (gland) => `Loosen the ${gland}`,
    turn: (what, to) => `Turn ${what}${to === undefined ? " over" : ` so that its ${side(to)} faces you`}`,
    isolate: (what) => `Disconnect the ${what} from its supply`,
    verify: (what) => `Make sure that the ${what} carries no voltage`,
    restore: (what) => `Switch the supply of the ${what} on again`,
    inspect: (what) => (what === undefined ? "Go through the final inspection list" : `Check the ${what}`),
    setAside: (what, bag) => (bag === undefined ? `Set ${what} aside` : `Put ${what} into the bag “${bag}”`),
    discard: (what) => `Dispose of ${what}`,
    wait: "Wait",
    waitFor: (what) => `Let ${what} rest`,
    everything: "the whole assembly",
    direction,
  },

  tightening: enTightening,
  labels: {
    guide: "Installation guide",
    card: "Kit card",
    variant: "Variant",
    revision: "Revision",
    date: "Date",
    supplier: "Supplier",
    language: "Language",
    contents: "In this guide",
    use: "Intended use and limits",
    box: "What is in the box",
    tools: "Tools and consumables",
    consumables: "Consumables",
    safety: "Safety",
    steps: "Steps",
    inspection: "Final inspection",
    aftercare: "Aftercare",
    trouble: "If something is wrong",
    removal: "Removal and disposal",
    order: "Why this order",
    about: "About this guide",
    skip: "Go to the steps",
    take: "Take",
    figure: "See",
    how: "Read",
    do: "Do",
    check: "Check",
    reference: "Item",
    count: "Count",
    designation: "Designation",
    bag: "Bag",
    spare: "Of which spare",
    lifeSize: "Life size",
    torque: "Torque",
    tool: "Tool",
    limits: "Limits",
    hazard: "Hazard",
    yes: "Yes",
  },

  front: {
    fits: "Fits",
    tube: (shape, size) =>
      shape === "square"
        ? `Square tube, ${size} wide`
        : `${shape === "round" ? "Round tube" : "Tube"}, outside diameter ${size}`,
    load: (mass) => `Load at most ${mass}`,
    temperature: (range) => `Temperature ${range}`,
    other: (name, value) => `${name}: ${value}`,
    finished: "Finished view",
    finishedAlt: (title, parts) => `${title}, completely mounted: ${parts}.`,
    checkHeading: "Check before you open the bags",
    checkIntro: "Start only if every line is true.",
    checkTube: (shape, size) =>
      shape === "square" ? `The tube is square and ${size} wide.` : `The outside diameter of the tube is ${size}.`,
    checkTubeNot: "Do not open the bags. Ask the supplier for the variant for your tube.",
    checkUnit: (unit, product, revision) => `The type plate of the ${unit} says ${product}${sayRevision(revision)}.`,
    checkUnitNot: "Do not open the bags. Ask the supplier which variant fits your unit.",
    checkLoad: (mass) => `The kit carries at most ${mass}.`,
    checkLoadNot: "Do not use this kit.",
    checkTemperature: (range) => `Temperature at the place of use: ${range}.`,
    checkTemperatureNot: "Choose another place.",
    checkBox: "Bags and parts match “What is in the box”.",
    checkBoxNot: "Do not start. Tell the supplier the item number.",
    ifNot: "If not",
    need: "You need",
    resources: (persons, duration) =>
      [
        ...(persons === undefined ? [] : [times(persons, "person", "persons")]),
        ...(duration === undefined ? [] : [`about ${duration}`]),
      ].join(", "),
    fromTo: (first, last) => `${first} to ${last}`,
    stops: (steps, count) => `You can stop after step${count === 1 ? "" : "s"} ${steps}.`,
    skills: "For adults who can work with hand tools and set a torque driver.",
    worst: "Most important",
    invented: "All names and numbers of this kit are invented. Do not build from this guide.",
    readFirst: "Read the guide first and keep it.",
    translated: (original) =>
      `Translation of our printed words; the texts of the maker are in the original language (${original}).`,
    environment: {
      heading: "Made for",
      sun: "sunlight",
      wet: "wet places",
      salt: "salty air",
      vibration: "vibration",
    },
    intended: "Intended use",
    notFor: "Not for",
    noHazard: "No hazard to persons is known. Notices about damage stand at the steps.",
    energyUnnamed:
      "The unit carries energy. Keep to the steps that switch it off, to its own manual and to local rules.",
    noUse: "The supplier has not described the intended use.",
    unitFacts: {
      earth: "Earthing",
      cooling: "Cooling",
      up: (name) => `The top of the unit points ${direction(name) === "above" ? "up" : direction(name)} when mounted.`,
    },
  },

  box: {
    intro: "Item numbers are the same in figures, lists, text and on the card. Lay the bags out and count.",
    bag: (id, name) => (name === "" || name === id ? `Bag ${id}` : `Bag ${id}: ${name}`),
    loose: "Loose in the box",
    looseShort: "loose",
    ownScrews: "Empty. It is for the screws that come off your own unit.",
    ofWhichSpare: (count) => `${measures.number(count)}\u00a0spare`,
    tie: (name, size) => `${name}: cable tie ${size}`,
    band: (name, size) => `${name}: metal band ${size}`,
    pad: (name, size) => (size === undefined ? name : `${name}, ${size}`),
    hand: (name, hand) => `${name} (${hand} hand)`,
    cable: (name, length) => (length === undefined ? name : `${name}, ${length} long`),
    lookAlikeHeading: "Easily confused",
    lookAlikeIntro: "Lay the piece on the picture before you use it.",
    lookAlikeLength: (one, oneLength, other, otherLength) =>
      `${one} is ${oneLength} long, ${other} is ${otherLength} long.`,
    lookAlikeOther: (one, other) => `${one} and ${other} differ in head or thread.`,
    lifeSizeNote: "Pictures of fasteners are life size when the page is printed at 100 %. The scale is in millimetres.",
    itemAlt: (designation, length) =>
      `${designation}${length === undefined ? "" : `, ${length} long`}: life-size picture`,
  },

  tools: {
    name: (kind, size) =>
      ({
        "hex-key": `hex key ${size}\u00a0mm`,
        hexalobular: `hexalobular driver T${size}`,
        "cross-pz": `cross-recess driver PZ${size}`,
        "cross-ph": `cross-recess driver PH${size}`,
        slot: `slot screwdriver ${size}`.trim(),
        wrench: `wrench ${size}\u00a0mm`,
        "torque-driver": "torque driver",
        "side-cutters": "side cutters",
      })[kind],
    torqueDriver: (range) => (range === undefined ? "torque driver" : `torque driver for ${range}`),
    forItems: (items) => `for ${items}`,
    use: "Used",
    noneSupplied: "None of these tools is in the box.",
    consumablesNeeded: "These consumables are not in the box:",
    supplied: (name) => `${name} (in the box)`,
    noConsumables: "No consumables are needed.",
  },

  steps: {
    heading: (number) => `Step ${number}`,
    reference: (number) => `step\u00a0${number}`,
    titled: (number, title) => `step\u00a0${number} (${title})`,
    figure: (number) => `Figure ${number}`,
    caption: ({ items, off, view, isTurned }) => {
      const seen = `${isTurned ? "The view has turned. Now seen" : "Seen"} from ${direction(view)}.`
      const taken = off.length === 0 ? "" : ` Comes off: ${list(off)}.`
      return (items.length === 0 ? seen : `${seen} New: ${list(items)}.`) + taken
    },
    alt: ({ items, isExploded, view }) => {
      const named = list(items)
      if (named === "") return `Line drawing of the assembly at this step, seen from ${direction(view)}`
      return isExploded
        ? `Line drawing seen from ${direction(view)}: ${named}, drawn apart; path lines show where each piece goes`
        : `Line drawing seen from ${direction(view)}: ${named} in place`
    },
    openBags: (open, away) => {
      const bags = (ids: readonly string[]) => `${ids.length === 1 ? "bag" : "bags"}\u00a0${list(ids)}`
      return `${away.length === 0 ? "" : `Put ${bags(away)} away. `}Open ${bags(open)}.`
    },
    ownScrews: "own screws",
    noResult: "Every line of this step is done.",
    time: (duration) => `About ${duration}`,
    tickIntro:
      "Do the steps in this order. Tick each check. If a check is not true, stop and look under “If something is wrong”.",
    whyNow: {
      inTheWay: (name, step) => `Do this now: from step\u00a0${step} on, the ${name} is in the way.`,
      inHand: (name, step) =>
        `Do this now, while the ${name} is loose in your hand: step\u00a0${step} puts it in place.`,
      tight: (name, step) => `Do this now: step\u00a0${step} tightens the ${name}.`,
      threaded: (cable, passage, step) =>
        `Do this now: from step\u00a0${step} on, the ${cable} runs through the ${passage}.`,
    },
    lastChance: (checks) =>
      `Last chance to check: ${checks.map((check) => check.replace(/^The /, "the ")).join("; ")}.`,
    aligned: (name) => `The ${name} is in line.`,
    stop: (next, isIsolated) =>
      `You can stop here${isIsolated ? "; leave the power off" : ""}. ${next === undefined ? "After this, go on to the end." : `The next place to stop is after step\u00a0${next}.`}`,
  },

  notices: {
    crossThread: {
      avoid: (items) => `Turn ${items} in by hand for two turns before you use a tool.`,
      why: "A screw that starts at an angle cuts across the thread and destroys it.",
    },
    plasticThread: {
      avoid: stopAt,
      why: "The thread in the plastic strips when the screw is turned further, and it does not hold again.",
    },
    plasticPart: {
      avoid: stopAt,
      why: (parts) => `More torque crushes or cracks the plastic of the ${parts}.`,
    },
    ownScrews: {
      avoid: (items) => `Keep ${items} of your unit.`,
      why: (long, longLength, ownLength) =>
        `Without the kit they belong back in: ${long} of the kit, ${longLength} instead of ${ownLength}, reach the bottom of the thread.`,
      whyKept: "You need them when you remove the kit.",
    },
    oneByOne: {
      avoid: (items) => `Change ${items} one at a time.`,
      why: (held) => `These screws also hold something inside the unit: ${held}.`,
    },
  },

  ...enAfter,

  card: {
    readGuide: "Read the guide before you start.",
    scan: "Guide for this revision:",
    qrAlt: (address) => `QR code with the address ${address}`,
    check: "Check before you open the bags",
    torqueNote: "* Calculated: prove it on a sample.",
    empty: "(empty)",
    seeGuide: "see guide",
    steps: (count) => times(count, "step", "steps"),
  },

  index: {
    title: "Installation guides",
    intro: "Measure your tube, then choose the guide that fits it.",
    choose: "Choose your guide",
    fits: "Fits",
    links: {
      guide: "Guide for phone and screen",
      a4: "PDF, A4",
      letter: "PDF, Letter",
      card: "Card",
      report: "Report",
    },
    linkTitle: (link, kit, variant) => `${link}: ${kit}, ${variant}`,
    verdict: "Verdict",
    result: "Findings",
    counts: (errors, warnings) => `${times(errors, "error", "errors")}, ${times(warnings, "warning", "warnings")}`,
    noDocuments: "No documents yet: the checks found errors.",
    notCurrent: "Not current: the newest build did not pass. These are the last good documents.",
    current: "Current",
    picture: (kit, variant) => `Finished view of ${kit}, ${variant}`,
    makerHeading: "For the maker: results of the checks",
    empty: "No guide has been built yet.",
  },

  report: {
    title: (kit, variant) => `Findings: ${kit}, ${variant}`,
    none: "No findings.",
    counts: (errors, warnings, notes) =>
      `${times(errors, "error", "errors")}, ${times(warnings, "warning", "warnings")}, ${times(notes, "note", "notes")}.`,
    severity: { error: "Error", warning: "Warning", note: "Note" },
    why: "Why",
    fix: "Fix",
    related: "See also",
    accepted: (reason) => `Accepted: ${reason}`,
    source: "Source",
    joints: "Values of the joints",
    origin: "Origin",
    joint: "Joint",
    grip: "Grip",
    engagement: "Engagement",
    governing: "Limited by",
    ties: "Values of the ties",
    tie: "Tie",
    loop: "Round the parts",
    needed: "Needed",
    supplied: "Supplied",
    slot: "Slot",
    load: "Load",
    loadOf: (needed, born, factor) => `${needed} of ${born}, factor ${factor}`,
    seats: "Seats on the tube",
    part: "Part",
    measured: "Measured",
    gap: "Gap",
    passages: "Ends and openings",
    passage: "Opening",
    end: "End",
    opening: "Size of the opening",
    envelope: "Size of the end",
    passes: "Passes",
    fitsWords: (fits) => (fits ? "yes" : "no"),
  },
}
