/** Schema of joints, ties, pads, cables and passages. */
import { z } from "zod"
import { pointsForm } from "../short/points.ts"
import { endForm, padsForm, slotForm, tiesForm } from "../short/things.ts"
import {
  count,
  direction,
  distance,
  fastener,
  fasteners,
  flag,
  gland,
  holes,
  length,
  measure,
  name,
  names,
  oneOf,
  outline,
  patternPoint,
  point,
  sizes2,
  sizes3,
  text,
} from "./fields.ts"
import { field } from "./forms.ts"
import { bore, collection, placement } from "./pieces.ts"

const packing = {
  bag: name("Bag it is packed in.", ["A"]).optional(),
  spare: count("Extra pieces in the box.").default(0),
}

/** An entry of `joints`. */
export const joint = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    screws: fasteners("Count and designation of its screws."),
    through: names("Parts it clamps, head side first."),
    into: field(
      z.union([name("Name of a bore.", ["driver.foot"]), bore]),
      "The bore that takes the screws: a name, or the bore itself.",
      { examples: ["driver.foot"] },
    ).optional(),
    nut: fastener("Nut on the far side.", "ISO 4032 M4").optional(),
    washer: fastener("Washer under the head.", "ISO 7089 M4").optional(),
    holes: holes("Where the holes are that the screws go through.").optional(),
    torque: measure("torque", "Your own tested torque; wins over the computed one.", { above: 0 }).optional(),
    tried: text("How the torque was tried.", ["on five prints"]).optional(),
    grip: length("Clamped length, head face to mouth of the thread; measured on the parts when left out.").optional(),
    clearance: length("Diameter of the holes in the clamped parts as modelled.").optional(),
    surface: oneOf(["dry", "oiled", "greased", "thread-lock"], "State of the thread.").optional(),
    cure: measure("duration", "How long it must rest after it is tightened, before use.", { above: 0 }).optional(),
    side: text("Face of the assembly it belongs to, when faces differ.").optional(),
    ...packing,
  }),
  "A pattern of equal screws that clamps parts into a bore, a nut, an insert or plastic.",
)

const tieSizes = field(
  z.strictObject({ count: count("How many.", 1), width: length("Width."), length: length("Length.") }),
  "Count, width and length.",
  { short: tiesForm, examples: ["4 x 4.8x300"] },
)

/** An entry of `ties`. */
export const tie = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    ties: tieSizes.optional(),
    bands: tieSizes.optional(),
    thickness: length("Thickness; from a table of usual ties when left out.").optional(),
    strength: measure("force", "Loop strength that its maker states.", { above: 0 }).optional(),
    holds: names("Parts it holds."),
    round: name("Frame it closes round.", ["rail"]).optional(),
    slot: field(
      z.strictObject({ in: name("Part that has the slot."), size: sizes2("Width and height of the slot.") }),
      "Slot that takes it through a part.",
      { short: slotForm, examples: ["6 x 2 in saddle"] },
    ).optional(),
    "seat-height": distance("Height of what lies between frame and tie.").optional(),
    pad: name("Pad under it.").optional(),
    until: text("How the buyer knows that it is tight enough.").optional(),
    at: field(z.array(patternPoint), "Middle of each loop.", {
      short: pointsForm,
      examples: ["0, 20, 0 along x"],
    }).default([]),
    ...packing,
  }),
  "Cable ties (`ties`) or metal bands (`bands`) that close round the frame.",
  { exclusive: [["ties", "bands"]] },
)

/** An entry of `pads`. */
export const pad = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    pads: field(
      z.strictObject({ count: count("How many.", 1), size: sizes3("Length, width, thickness.").optional() }),
      "Count, length x width x thickness.",
      { short: padsForm, examples: ["2 x 60 x 20 x 1.5"] },
    ),
    on: name("Part, unit or frame it lies on.", ["saddle"]),
    adhesive: flag("Sticks by itself.").default(true),
    cure: measure("duration", "How long it must rest after it is stuck on, before a load.", { above: 0 }).optional(),
    copies: field(z.array(field(z.strictObject(placement), "Where one pad stands.")), "Where each pad stands.", {
      isListOfOne: true,
    }).default([]),
    ...packing,
  }),
  "Grip, seal or spacer strips.",
)

const end = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    size: outline("Size of the connector or ferrule that must pass an opening.").optional(),
    fixed: flag("Cannot be taken off what it is fixed to.").default(false),
    connected: name("Socket it is connected to on arrival.", ["driver.out"]).optional(),
  }),
  "An end of the cable.",
  { short: endForm, examples: ["12 x 9", "round 12", "fixed", "connected to driver.out"] },
)

/** An entry of `cables`. */
export const cable = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    length: length("Length.").optional(),
    diameter: length("Outside diameter.").optional(),
    slack: distance("Length that must stay loose.").optional(),
    "least-bend": distance("Least bend radius.").optional(),
    ends: collection(end, "Its ends, by id.").default({}),
    route: field(z.array(point("A point of the route.")), "Points it runs through, end to end.").default([]),
    via: names("Passages in order from the first end.").default([]),
    supplied: flag(
      "Is in the box; when left out, it is unless one of its ends is fixed or connected on arrival.",
    ).optional(),
    live: flag("Carries power.").default(false),
    bag: packing.bag,
  }),
  "A lead of the kit, the unit or the frame.",
)

/** An entry of `passages`. */
export const passage = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    in: name("Part it is in.", ["hood"]),
    opening: outline("Clear size of the opening.").optional(),
    closed: flag("Closed all round; an open one lets a cable be laid in from the side.").default(true),
    clamps: gland(
      "It is a gland that is tightened round the cable: yes, or the diameters of cable that it holds.",
    ).optional(),
    at: point("Middle of the opening.").optional(),
    along: direction("Direction through it.").optional(),
  }),
  "An opening that a cable runs through.",
)
