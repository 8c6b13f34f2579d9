/** Schema of what has a body: parts, units with their pieces, frames; and of the bores in them. */

import { z } from "zod"
import { nearNames } from "../../findings/near.ts"
import { boreForm } from "../short/bores.ts"
import { countForm } from "../short/numbers.ts"
import { keyForm } from "../short/things.ts"
import {
  count,
  direction,
  distance,
  fastener,
  fasteners,
  flag,
  holes,
  idPattern,
  length,
  measure,
  model,
  name,
  names,
  oneOf,
  point,
  profile,
  prose,
  shape,
  text,
  turn,
} from "./fields.ts"
import { field } from "./forms.ts"

/** A collection whose entries have ids. */
export function collection<Entry extends z.ZodType>(entry: Entry, description: string) {
  return field(z.record(z.string(), entry), description, { hasIds: true, idPattern })
}

/** Shift and turn of a piece. */
export const placement = {
  at: point("Shift from where the file or shape has it.").optional(),
  turn: turn("Turn before the shift.").optional(),
}

/** A bore; its keys tell its kind. */
export const bore = field(
  z.strictObject({
    thread: name("Thread of tapped metal.", ["M4"]).optional(),
    insert: name("Heat-set insert: thread x length.", ["M3 x 5.7"]).optional(),
    nut: fastener("Captive nut.", "ISO 4032 M4").optional(),
    in: text("Material round the thread.", ["aluminium"]).optional(),
    depth: length("Usable depth of the thread or hole.").optional(),
    "right-through": flag("The hole goes right through.").default(false),
    hole: length("Diameter of the pilot or insert hole as modelled.").optional(),
    boss: length("Outside diameter of the boss round the hole.").optional(),
    holes: holes("Where the holes are.").optional(),
  }),
  "A hole that takes a screw: tapped (`thread`), with an insert (`insert`), with a nut (`nut`), else a pilot hole for a thread-forming screw.",
  { short: boreForm, exclusive: [["thread", "insert", "nut"]] },
)

const copyPlaces = field(
  z.union([
    count("How many pieces.", 1),
    z.array(field(z.strictObject(placement), "Where one copy stands.")),
    collection(field(z.strictObject(placement), "Where this copy stands."), "Copies by name."),
  ]),
  "How many pieces there are: a number, or where each stands.",
  { short: (tree, at) => (tree.kind === "scalar" ? countForm(tree, at) : tree), examples: ["2"] },
)

const partFields = {
  name: text("Name in the guide; made from the id when left out.", ["Saddle"]).optional(),
  model: model.optional(),
  shape: shape.optional(),
  plastic: name("Plastic it is printed from.", ["PETG"]).optional(),
  material: name("Material, when it is no printed plastic.", ["aluminium"]).optional(),
  mass: measure("mass", "Mass of one piece.", { above: 0 }).optional(),
  hand: oneOf(["left", "right"], "Left or right form.").optional(),
  mirrors: name("The part it is the mirror image of.").optional(),
  bag: name("Bag it is packed in.", ["A"]).optional(),
  spare: count("Extra pieces in the box.").default(0),
  copies: copyPlaces.optional(),
  ...placement,
  goes: direction("Direction it travels when it is placed.").optional(),
  covers: names(
    "Sockets, joints, bores, ties, parts, units, passages, cables or cable ends that it hides once in place.",
  ).default([]),
  "holds-itself": flag("Stays where it is put before its joint is tight.").default(false),
  flexible: flag("Bends into place.").default(false),
  opens: flag("Is hinged or slides; `open` and `close` act on it.").default(false),
  hinge: field(
    z.strictObject({
      at: point("A point on the axis of the hinge."),
      along: direction("Direction of that axis; seen along it, the part opens clockwise."),
      by: measure("angle", "How far it opens.", { above: 0, most: 360 }).default(100),
    }),
    "How it swings open; drawings then show it open while it is.",
  ).optional(),
  bores: collection(bore, "Holes that take screws, by id.").default({}),
}

const bodyForm = {
  exclusive: [
    ["model", "shape"],
    ["plastic", "material"],
  ],
} as const

/** An entry of `parts`, or a piece of a unit. */
export const part = field(z.strictObject(partFields), "One kind of piece in the box.", bodyForm)

const socket = field(
  z.strictObject({
    name: text("Name in the guide.").optional(),
    takes: name("Cable end that belongs here.", ["lead.plug"]).optional(),
    at: point("Where it is.").optional(),
  }),
  "Where a cable end is connected.",
)

const ownScrews = field(
  z.strictObject({
    screws: fasteners("The screws that sit in it on arrival."),
    into: name("Bore they sit in; the one of the same id when left out.").optional(),
    "also-holds": text("What else these screws hold; then one screw at a time.").optional(),
  }),
  "Screws of the unit itself.",
  { short: keyForm("screws"), examples: ["2 x ISO 4762 M4x8"] },
)

/** A unit of the buyer. */
export const unit = field(
  z.strictObject({
    kind: z.literal("unit"),
    name: text("Name in the guide.").optional(),
    product: text("Model name as on its label.").optional(),
    revision: text("Hardware revision.").optional(),
    mass: measure("mass", "Mass.", { above: 0 }).optional(),
    powered: flag("Carries energy: work on it comes after `isolate`.").default(false),
    discharge: measure("duration", "How long it holds its charge after it is isolated.", { above: 0 }).optional(),
    earth: prose("How it is earthed.").optional(),
    cooling: prose("What cools it and must stay free.").optional(),
    up: direction("Which of its sides is up.").optional(),
    covers: names("What it hides once in place: joints, pads, passages and so on.").default([]),
    model: model.optional(),
    shape: shape.optional(),
    ...placement,
    bores: collection(bore, "Holes that take screws, by id.").default({}),
    "screwed-in": collection(ownScrews, "Screws that sit in the unit on arrival, by id.").default({}),
    sockets: collection(socket, "Where cables are connected, by id.").default({}),
    pieces: collection(part, "Removable pieces of the unit itself, by id.").default({}),
  }),
  "A unit of the buyer.",
  { exclusive: [["model", "shape"]] },
)

/** A frame of the buyer. */
export const frame = z.strictObject({
  kind: z.literal("frame"),
  name: text("Name in the guide.").optional(),
  tube: profile("Outside of the tube."),
  length: length("Length that is drawn.").default(300),
  along: direction("Direction of its axis; x when left out.").optional(),
  ...placement,
  wall: distance("Wall thickness.").optional(),
  material: text("Material.", ["steel"]).optional(),
})

/** An entry of `host`; with `tube` it is a frame. */
export const host = field(
  z.discriminatedUnion("kind", [unit, frame]),
  "A unit or a frame of the buyer; with `tube` it is a frame.",
  {
    // A mistyped `tube` makes no unit of a frame.
    kindOf: (keys) =>
      keys.some((key) => key === "tube" || (!Object.hasOwn(unit.shape, key) && nearNames(key, ["tube"]).length > 0))
        ? "frame"
        : undefined,
    defaultKind: "unit",
  },
)

/** An entry of `assemblies`. */
export const assembly = field(
  z.strictObject({
    name: text("Name in the guide; made from the id when left out.", ["Cradle"]).optional(),
    of: names("Parts, copies and units that are joined before it is put in its place."),
    goes: direction("Direction it travels when it is placed.").optional(),
  }),
  "Pieces that are joined on the bench and then placed as one.",
)
