/** English words for what comes after the last step. */
import { list, the } from "./en-phrases.ts"
import type { Words } from "./types.ts"

/** Inspection, aftercare, trouble, removal, and what the guide says about itself. */
export const enAfter: Pick<Words, "after" | "trouble" | "removal" | "about"> = {
  after: {
    inspectionIntro: "Tick every line before you use the unit.",
    jointTight: (items, torque) =>
      torque === undefined ? `${items} tight, every head on its seat.` : `${items} tightened to ${torque}.`,
    tieClosed: (items, until) => `${items} closed so that ${until ?? "nothing moves by hand"}.`,
    padSits: (items) => `${items} stuck down flat.`,
    cableConnected: (end, socket) => `The ${end} is connected to the ${socket}.`,
    cableThrough: (cable, passage) => `The ${cable} runs through the ${passage}.`,
    glandTight: (gland, cable) => `The ${gland} is tight: the ${cable} can be neither pulled nor turned in it.`,
    tickedAt: (line, step) => `${line} (ticked in ${step}).`,
    onTable: "On the table lie these things and nothing else:",
    leftElse: "If anything else is left, go back to the step that uses it.",
    leftTools: "Your tools.",
    leftPiece: (what) => `${the(what)}: taken off your unit.`,
    leftSpare: (items) => `${items}: spare.`,
    leftOwn: (screws, bag) =>
      `${screws}: own screws of your unit${bag === undefined ? "" : `, in bag “${bag}”`}. Keep them for removal.`,
    leftMore: "Cut tails of the ties and packaging.",
    retighten: (items, torque) =>
      torque === undefined
        ? `Check that every head rests on its seat: ${items}.`
        : `Tighten ${items} to ${torque} again.`,
    retightenBehind: (covers) => `To get at them, first take off the ${list(covers)} as under “Removal and disposal”.`,
    retightenWhen: "After 24 hours and after four weeks:",
    retightenWhy: "Plastic under a screw head settles and the clamping force drops.",
    ties: "Once a year, look at the ties. Replace a tie that is cracked, white at the bend or loose.",
    tiesSun: "Sunlight makes plastic ties brittle: look at them twice a year.",
    practice: "The intervals are common practice, not a tested value.",
    salt: "Rinse salt off with fresh water and look for rust on the screws.",
    nothing: "This kit needs no regular care. Check the screws when you have moved it.",
  },

  trouble: {
    what: "What you see",
    todo: "What to do",
    missing: "A part is missing or broken",
    missingTodo: (kit, contact) =>
      `Do not replace it by something similar. Send the item number and “${kit}” to ${contact === "" ? "the supplier" : contact}.`,
    noFit: "A part does not fit",
    noFitTodo: (hasTube, hasUnit) => {
      const own = [...(hasTube ? ["the size of your tube"] : []), ...(hasUnit ? ["the type of your unit"] : [])]
      const first = own.length === 0 ? "" : `${list(own)} with page 1, and `
      return `Do not use force. Compare ${first}the part with the figure. Then ask the supplier.`
    },
    stiff: "A screw is hard to turn from the start",
    stiffTodo:
      "Turn it back out. Set it upright, turn it backwards until it drops into the thread, then start again by hand.",
    stripsMetal: (items) => `A screw turns without getting tighter: ${items}`,
    stripsMetalTodo: "Stop. The thread is damaged. Do not use the assembly. Ask the supplier.",
    stripsPlastic: (items) => `A screw turns freely in the plastic: ${items}`,
    stripsPlasticTodo: "Stop. The plastic thread no longer holds. Do not use a longer screw. Order the part again.",
    plug: (end, passage) => `The ${end} does not go through the ${passage}`,
    plugTodo: "Do not cut the connector off. Check the variant on page 1, and that the step before is done.",
    checkFails: "A check is not true",
    checkFailsTodo: "Go back to the step that the figure shows differently. Do not go on before the check is true.",
  },

  removal: {
    intro: "Remove the kit in this order:",
    honest: "This order was proved by calculation. Nobody has tried it out.",
    neededAgain: (items) => `To mount the kit again, you need new: ${list(items)}.`,
    stuck: (acts) => `These acts cannot be undone: ${acts.join("; ")}.`,
    hazards: "The safety messages of the steps apply here too.",
    takeOut: (items, tool) => `Unscrew ${items}${tool === undefined ? "" : ` with the ${tool}`}`,
    takeOff: (what, position) => `Take off ${the(what)}${position === undefined ? "" : ` from position “${position}”`}`,
    cutTie: (items, isCarrying) =>
      `${isCarrying ? "Hold what it carries, then open" : "Open"} or cut ${items}; what was cut is not used again`,
    peel: (items) => `Peel off ${items}; it is not used again`,
    putBack: (what) => `Put ${the(what)} back`,
    ownScrewsBack: (items, torqueHint) => `Screw the unit's own screws back in: ${items}; ${torqueHint}`,
    changeOneByOne: (items, own, torqueHint) =>
      `One screw at a time, change ${items} for the unit's own screws: ${own}; ${torqueHint}`,
    ownTorque: "torque as the guide of the unit says",
    disposal: "Sort plastic, metal and electronics, and give them to your local collection.",
  },

  about: {
    orderIntro:
      "The order was proved by calculation. These are the places where another order looks possible but does not work:",
    orderLine: (first, then, reason) =>
      reason === undefined ? `Do ${first} before ${then}.` : `Do ${first} before ${then}: ${reason}.`,
    feedFirst: (end, passage) =>
      `Feed the ${end} through the ${passage} before you connect it: a connected end cannot be fed through.`,
    otherEnd: (end, other, otherSize, passage, opening) =>
      `Feed the ${end}, not the ${other}: the ${other} (${otherSize}) does not go through the ${passage} (${opening}).`,
    losses: {
      inPlace: (name) => `the ${name} is in the way afterwards`,
      loose: (name) => `for this the ${name} must still be loose in your hand`,
      closed: (name) => `the ${name} is closed afterwards`,
      tight: (joint) => `the screws of the ${joint} are tight afterwards`,
      threaded: (cable, passage) => `the ${cable} runs through the ${passage} afterwards`,
    },
    torqueHeading: "Origin of the torques",
    torqueOrigin: "Origin",
    torqueNote: "Calculated torques are starting values. Prove each one on a sample before you rely on it.",
    torqueMaker: (tried) => (tried === undefined ? "value of the maker" : `value of the maker, tried ${tried}`),
    torqueComputed: "calculated starting value",
    document: (kit, variant, revision, date, language) =>
      `Kit ${kit}, variant ${variant}, revision ${revision} of ${date}, language ${language}.`,
    newest: "The newest revision is here:",
    rules: "Made from checked data: the order of the steps, the counts and the fits of this variant were computed.",
    pageOf: (page, pages) => `Page ${page} of ${pages}`,
  },
}
