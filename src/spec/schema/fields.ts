/** Builders of single fields; each gives a schema of the long form and registers what else is accepted. */
import { z } from "zod"
import type { Dimension } from "../../units/types.ts"
import { countForm, flagForm, glandForm, limitForm, numberForm, rangeForm, textForm } from "../short/numbers.ts"
import {
  directionForm,
  holesForm,
  outlineForm,
  pointForm,
  profileForm,
  sizesForm,
  tripleForm,
} from "../short/places.ts"
import { shapeHolesForm } from "../short/points.ts"
import { fastenersForm, fileForm, keyForm, namesForm, shapeHoleForm } from "../short/things.ts"
import { field } from "./forms.ts"

/** Ids of all things but bags and materials. */
export const idPattern = /^[a-z][a-z0-9-]*$/

/** Words of the maker; a number typed there keeps its letters. */
export const text = (description: string, examples: readonly string[] = []) =>
  field(z.string(), description, { short: textForm, examples })

/** CommonMark with links to things of the kit. */
export const prose = (description: string) =>
  field(z.string(), `${description} CommonMark; links such as [](part:ID) become names and numbers.`, {
    short: textForm,
  })

/** The name of something, or other words that must not be empty. */
export const name = (description: string, examples: readonly string[] = []) =>
  field(z.string().min(1), description, { short: textForm, examples })

/** Names of several things; one name alone is a list of one. */
export const names = (description: string) =>
  field(z.array(name("Name of one thing.")), description, { short: namesForm, isListOfOne: true, examples: ["plate"] })

/** `yes` or `no`. */
export const flag = (description: string) =>
  field(z.boolean(), `${description} yes or no.`, { short: flagForm, examples: ["yes", "no"] })

/** A whole number of pieces. */
export const count = (description: string, least = 0) =>
  field(z.number().int().min(least).max(100_000), description, {
    short: countForm,
    examples: ["2"],
    isShortNumber: true,
  })

const exampleOf: Readonly<Record<Dimension, string>> = {
  length: "12 mm",
  angle: "30°",
  force: "120 N",
  torque: "0.5 N·m",
  mass: "1.2 kg",
  duration: "45 min",
  temperature: "40 °C",
  area: "84 mm²",
  share: "0.3 %",
}

const unitOf: Readonly<Record<Dimension, string>> = {
  length: "Millimetres",
  angle: "Degrees",
  force: "Newtons",
  torque: "Newton metres",
  mass: "Kilograms",
  duration: "Minutes",
  temperature: "Degrees Celsius",
  area: "Square millimetres",
  share: "Per cent",
}

type Limits = { readonly above?: number; readonly least?: number; readonly most?: number }

/** A number with a unit. */
export function measure(dimension: Dimension, description: string, { above, least, most }: Limits = {}) {
  let schema = z.number()
  if (above !== undefined) schema = schema.gt(above)
  if (least !== undefined) schema = schema.min(least)
  if (most !== undefined) schema = schema.max(most)
  return field(schema, `${description} ${unitOf[dimension]} unless a unit is written.`, {
    dimension,
    short: numberForm(dimension),
    examples: [exampleOf[dimension]],
  })
}

/** A length above 0. */
export const length = (description: string) => measure("length", description, { above: 0, most: 100_000 })
/** A length of 0 or more. */
export const distance = (description: string) => measure("length", description, { least: 0, most: 100_000 })

/** An upper limit, `1.2 kg` or `up to 1.2 kg`. */
export const upperMass = (description: string) =>
  field(z.number().gt(0), `${description} Kilograms unless a unit is written.`, {
    dimension: "mass",
    short: limitForm("mass"),
    examples: ["1.2 kg"],
  })

/** A range of one dimension; either end may be open. */
export function range(dimension: Dimension, description: string, example: string) {
  const end = field(z.number(), `An end of the range. ${unitOf[dimension]} unless a unit is written.`, {
    dimension,
    short: numberForm(dimension),
    examples: [exampleOf[dimension]],
  })
  const schema = z.strictObject({ min: end.optional(), max: end.optional() })
  return field(schema, `${description} ${unitOf[dimension]} unless a unit is written.`, {
    short: rangeForm(dimension),
    examples: [example],
  })
}

/** A cable gland: `yes`, or the diameters of cable that it holds. */
export const gland = (description: string) =>
  field(z.union([z.boolean(), range("length", "Diameters of cable that it holds.", "4 to 6.5")]), description, {
    short: glandForm,
    examples: ["yes", "4 to 6.5"],
    isShortNumber: true,
  })

/** One of a few words. */
export const oneOf = <const Words extends readonly [string, ...string[]]>(words: Words, description: string) =>
  field(z.enum(words), description, { short: textForm })

const triple = z.tuple([z.number(), z.number(), z.number()])

/** A point in mm. */
export const point = (description: string) =>
  field(triple, `${description} x, y, z in millimetres.`, {
    short: tripleForm("length"),
    examples: ["10, 20, 30"],
    dimension: "length",
  })
/** Turns about x, y and z in degrees. */
export const turn = (description: string) =>
  field(triple, `${description} Degrees about x, then y, then z.`, {
    short: tripleForm("angle"),
    examples: ["0, 0, 90"],
    dimension: "angle",
  })
/** A unit vector. */
export const direction = (description: string) =>
  field(triple, `${description} down, up, left, right, front, back, or x, y, z of an arrow.`, {
    short: directionForm,
    examples: ["down"],
  })
/** Three lengths. */
export const sizes3 = (description: string) =>
  field(triple, `${description} Millimetres.`, {
    short: sizesForm(3, "80 x 60 x 40"),
    examples: ["80 x 60 x 40"],
    dimension: "length",
  })
/** Two lengths. */
export const sizes2 = (description: string) =>
  field(z.tuple([z.number(), z.number()]), `${description} Millimetres.`, {
    short: sizesForm(2, "6 x 2"),
    examples: ["6 x 2"],
    dimension: "length",
  })

const kindKeys =
  (kinds: Readonly<Record<string, readonly string[]>>) =>
  (keys: readonly string[]): string | undefined =>
    Object.entries(kinds).find(([, marks]) => marks.every((mark) => keys.includes(mark)))?.[0]

/** Opening or connector: rectangle, circle or obround. */
export const outline = (description: string) =>
  field(
    z.discriminatedUnion("kind", [
      z.strictObject({
        kind: z.literal("rectangle"),
        width: length("Width."),
        height: length("Height."),
        corner: distance("Radius of the corners.").default(0),
      }),
      z.strictObject({ kind: z.literal("circle"), diameter: length("Diameter.") }),
      z.strictObject({
        kind: z.literal("obround"),
        width: length("Width over all."),
        height: length("Height over all."),
      }),
    ]),
    `${description} Millimetres.`,
    {
      short: outlineForm,
      examples: ["14 x 10", "round 12", "obround 20 x 8"],
      kindOf: kindKeys({ circle: ["diameter"], rectangle: ["width"] }),
    },
  )

/** Outside of a tube: round or square. */
export const profile = (description: string) =>
  field(
    z.discriminatedUnion("kind", [
      z.strictObject({ kind: z.literal("round"), diameter: length("Outside diameter.") }),
      z.strictObject({
        kind: z.literal("square"),
        width: length("Outside width."),
        height: length("Outside height; the width when left out.").optional(),
        corner: distance("Outside radius of the corners.").default(0),
      }),
    ]),
    `${description} Millimetres.`,
    {
      short: profileForm,
      examples: ["round 32", "square 40", "square 40 x 30 corner 3"],
      kindOf: kindKeys({ round: ["diameter"], square: ["width"] }),
    },
  )

/** A designation as written; `fasteners` reads it later. */
export const fastener = (description: string, example: string) =>
  field(z.string().min(1), description, { short: textForm, examples: [example] })

/** Count and designation. */
export const fasteners = (description: string) =>
  field(
    z.strictObject({ count: count("How many.", 1), of: fastener("Designation of one.", "ISO 4762 M4x14") }),
    description,
    { short: fastenersForm, examples: ["2 x ISO 4762 M4x14"] },
  )

/** A point of a pattern and its direction. */
export const patternPoint = field(
  z.strictObject({
    at: point("Middle of the hole at the face it begins in."),
    along: direction("Direction into the material.").optional(),
  }),
  "A point, with the direction the screw goes.",
  { short: pointForm, examples: ["10, 20, 5", "10, 20, 5 along down"], alsoTakes: ["array", "number"] },
)

const foundHoles = z.strictObject({
  diameter: length("Diameter of the holes to find."),
  in: names("Parts, units or instances whose meshes have them."),
  along: direction("Only holes in this direction.").optional(),
})

/** Holes: typed points, or a diameter to be found in meshes. */
export const holes = (description: string) =>
  field(z.union([z.array(patternPoint), foundHoles]), description, { short: holesForm, examples: ["4.3 in plate"] })

/** A mesh file and the unit of its numbers. */
export const model = field(
  z.strictObject({
    file: field(z.string().min(1), "File in the kit's folder or in its `models` folder.", {
      short: fileForm,
      examples: ["saddle.stl"],
    }),
    unit: oneOf(["mm", "cm", "m", "inch"], "Unit of the numbers in the file.").default("mm"),
  }),
  "Mesh file (STL), placed as exported unless `at` or `turn` say otherwise.",
  { short: keyForm("file"), examples: ["saddle.stl"] },
)

const shapeHole = field(
  z.strictObject({
    diameter: length("Diameter of a round hole.").optional(),
    size: sizes2("Width and height of a rectangular opening.").optional(),
    at: field(
      z.array(z.number()).min(2).max(3),
      "Where it begins: x, y, z in millimetres; without z on the top face.",
      {
        short: tripleForm("length", 2),
        examples: ["10, 10"],
        dimension: "length",
      },
    ),
    along: direction("Direction into the material; down when left out.").optional(),
    depth: length("Depth; right through when left out.").optional(),
  }),
  "A hole or opening of a shape.",
  {
    alsoTakes: ["number"],
    short: shapeHoleForm,
    examples: ["4.3 at 10, 10", "14 x 10 at 20, 30"],
    exclusive: [["diameter", "size"]],
  },
)

const shapeHoles = field(z.array(shapeHole), "Holes and openings.", {
  short: shapeHolesForm,
  examples: ["4.3 at 10, 10"],
}).default([])

/** A simple solid. */
export const shape = field(
  z.discriminatedUnion("kind", [
    z.strictObject({
      kind: z.literal("box"),
      box: sizes3("Length, width, height of a block from the origin."),
      holes: shapeHoles,
    }),
    z.strictObject({
      kind: z.literal("plate"),
      plate: sizes3("Length, width, thickness of a plate from the origin."),
      corner: distance("Radius of its corners.").default(0),
      holes: shapeHoles,
    }),
    z.strictObject({
      kind: z.literal("cylinder"),
      cylinder: sizes2("Diameter and height; it stands on the origin."),
      bore: distance("Diameter of the bore along its axis.").default(0),
    }),
    z.strictObject({
      kind: z.literal("tube"),
      tube: profile("Outside of the tube."),
      length: length("Length."),
      wall: distance("Wall thickness; solid when left out.").default(0),
    }),
    z.strictObject({
      kind: z.literal("saddle"),
      saddle: sizes3("Length, width, height of the block."),
      seat: profile("The tube that lies in its underside, along x."),
      depth: distance("How deep the tube sits in the block."),
      holes: shapeHoles,
    }),
  ]),
  "A simple solid in place of a mesh file.",
  {
    kindOf: kindKeys({ box: ["box"], plate: ["plate"], cylinder: ["cylinder"], saddle: ["saddle"], tube: ["tube"] }),
  },
)
