/** Schema of `kit.yaml` in its long form, the one source of loading, validation and the JSON Schemas. */
import { z } from "zod"
import type { Tree } from "../read/tree.ts"
import { dateForm } from "../short/dates.ts"
import { keyForm } from "../short/things.ts"
import { cable, joint, pad, passage, tie } from "./fastening.ts"
import { count, flag, idPattern, measure, name, names, oneOf, prose, range, text, upperMass } from "./fields.ts"
import { field } from "./forms.ts"
import { assembly, collection, host, part } from "./pieces.ts"
import { acceptance, acts, hazard, step } from "./steps.ts"

/** Bags are often called by a capital letter. */
const bagPattern = /^[A-Za-z][A-Za-z0-9-]*$/

const axis = field(
  z.strictObject({
    value: name("Value that kit.yaml itself stands for, or `none` when each value has a file."),
    title: text("Title of that value.", ["Round tube, 32 mm"]).optional(),
  }),
  "An axis of variants.",
  { short: keyForm("value"), examples: ["round-32"] },
)

const ownVariant = field(
  z.strictObject({
    id: name("Id of the variant that kit.yaml itself stands for."),
    title: text("Its title.").optional(),
  }),
  "The variant that kit.yaml itself stands for, when there is one axis.",
  { short: keyForm("id"), examples: ["round-32"] },
)

const printing = field(
  z.strictObject({
    holes: measure("length", "What the printer adds to a hole's diameter; mostly below 0.").default(0),
    outside: measure("length", "What the printer adds to outside sizes.").default(0),
    shrinkage: measure("share", "Shrinkage on cooling.").default(0),
    compensated: field(z.enum(["in model", "in slicer", "no"]), "Where this is already made up for.", {
      short: keepWords,
    }).default("no"),
  }),
  "How one plastic comes off your printer.",
)

/** `no` is a word here, not the opposite of yes; `slicer` and `model` are short for where. */
function keepWords(tree: Tree): Tree {
  if (tree.kind !== "scalar" || tree.value === null) return tree
  const word = tree.written.toLowerCase().replace(/^(?:in )?(?:the )?(model|slicer)$/, "in $1")
  return { ...tree, value: /^(?:no|none|false|nowhere)$/.test(word) ? "no" : word }
}

/** Keys of `kit.yaml`. */
const kitShape = {
  kit: field(z.string().regex(idPattern), "Id of the kit.", { examples: ["rain-gauge-arm"] }),
  title: name("Title of the kit.", ["Arm for a rain gauge"]),
  invented: flag("The numbers are made up; every document says so.").default(false),
  supplier: field(
    z.strictObject({
      name: text("Who sells the kit.").default(""),
      address: text("Postal address.").default(""),
      contact: text("Mail, telephone or web address for questions.").default(""),
    }),
    "Who sells the kit; stands on every document.",
    { short: keyForm("name") },
  ).optional(),
  revision: field(
    z.strictObject({
      id: name("Revision, raised whenever a document changes.", ["B"]),
      date: field(z.string(), "Date, year first.", { short: dateForm, examples: ["2026-03-02"] }),
      guide: text("Address of the guide of this revision.").default(""),
    }),
    "State of the documents.",
  ),
  "intended-use": prose("What the kit is for.").optional(),
  "not-for": prose("What it must not be used for.").optional(),
  persons: count("How many people it takes.", 1).optional(),
  time: measure("duration", "How long it takes.", { least: 0 }).optional(),
  languages: names("Languages of the documents.").default(["en"]),
  fits: field(
    z.strictObject({
      tube: oneOf(["round", "square"], "Shape of the tube.").optional(),
      diameter: range("length", "Outside diameter of a round tube.", "31.5 to 32.5").optional(),
      width: range("length", "Outside width of a square tube.", "39.5 to 40.5").optional(),
      load: upperMass("Most it may carry.").optional(),
      temperature: range("temperature", "Temperature of use.", "-10 to 45").optional(),
      also: field(z.record(z.string(), text("The limit in words.")), "Further limits: name and words.").default({}),
    }),
    "What it fits: numeric limits of use.",
    { exclusive: [["diameter", "width"]] },
  ).optional(),
  environment: field(
    z.strictObject({
      temperature: range("temperature", "Temperature where it will live.", "-10 to 45").optional(),
      sun: flag("In the sun.").default(false),
      wet: flag("Gets wet.").default(false),
      salt: flag("Salt in the air.").default(false),
      vibration: flag("Is shaken.").default(false),
    }),
    "Where it will live.",
  ).optional(),
  printing: field(z.record(z.string(), printing), "How each plastic comes off your printer.", {
    hasIds: true,
    idPattern: /^[A-Za-z][\w+ -]*$/,
  }).default({}),
  axes: collection(axis, "Axes of variants, in order.").optional(),
  variant: ownVariant.optional(),
  host: collection(host, "What the buyer has: units and frames, by id.").default({}),
  parts: collection(part, "Parts of the kit, by id.").default({}),
  assemblies: collection(assembly, "Groups of pieces that are joined first and then placed as one, by id.").default({}),
  cables: collection(cable, "Cables, by id.").default({}),
  passages: collection(passage, "Openings that cables run through, by id.").default({}),
  joints: collection(joint, "Screwed joints, by id.").default({}),
  ties: collection(tie, "Ties and bands, by id.").default({}),
  pads: collection(pad, "Pads, by id.").default({}),
  bags: field(
    z.record(
      z.string(),
      field(
        z.strictObject({
          name: text("Name on its label.").optional(),
          side: text("Side of the assembly it is for.").optional(),
          for: field(z.literal("own screws"), "`own screws`: keeps the screws that come off the unit.").optional(),
        }),
        "A bag in the box.",
        { short: keyForm("name"), examples: ["Left side"] },
      ),
    ),
    "Bags in the box, by id.",
    { hasIds: true, idPattern: bagPattern },
  ).default({}),
  tools: collection(
    field(
      z.strictObject({ name: text("Name in the guide."), supplied: flag("Is in the box.").default(false) }),
      "A tool.",
      {
        short: keyForm("name"),
        examples: ["Steel rule"],
      },
    ),
    "Tools beside those that the screws need, by id.",
  ).default({}),
  consumables: collection(
    field(z.strictObject({ name: text("Name in the guide.") }), "Something used up.", {
      short: keyForm("name"),
      examples: ["Lint-free wipe"],
    }),
    "What is used up and not in the box, by id.",
  ).default({}),
  hazards: collection(hazard, "Sources of harm, by id.").default({}),
  box: field(
    z.record(z.string(), count("How many are really packed.")),
    "What is really packed, when you count it: id or designation, and count.",
  ).default({}),
  arrives: acts("Acts that are already done when the box is opened.").default([]),
  accept: field(z.array(acceptance), "Warnings that are right as they are.", { isListOfOne: true }).default([]),
  steps: collection(step, "The steps in the order of doing, by id."),
}

/** The whole of `kit.yaml`. */
export const kitFile = field(z.strictObject(kitShape), "A kit.")

/** The long form of a kit after every default has been put in. */
export type KitInput = z.output<typeof kitFile>

/** Keys that say which variant a file is; the rest of a variant file is as in `kit.yaml`. */
export const variantHeader = {
  kit: kitShape.kit.optional(),
  variant: field(z.string().regex(idPattern), "Id of the variant; the file's name when left out.", {
    examples: ["mast-48"],
  }).optional(),
  axis: name("Axis it is a value of, when kit.yaml declares several.", ["tube"]).optional(),
  title: text("Title of the variant.", ["Round tube, 48 mm"]).optional(),
}

/** What a variant file may change: all but what the kit is called and which variants it has. */
export const changeableShape = kitFile.omit({ kit: true, title: true, axes: true, variant: true }).shape
