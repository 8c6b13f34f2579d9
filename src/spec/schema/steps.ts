/** Schema of steps and their acts, hazards and what is accepted. */
import { z } from "zod"
import { actForm, actsForm, verbs } from "../short/acts.ts"
import { countForm } from "../short/numbers.ts"
import { needsForm } from "../short/things.ts"
import { viewForm } from "../short/views.ts"
import type { Verb } from "../types.ts"
import { count, measure, name, names, oneOf, prose, text } from "./fields.ts"
import { field } from "./forms.ts"

const actBody = (verb: Verb, description: string) =>
  field(
    z.strictObject({
      what: name("What it acts on.").optional(),
      through: name("Passage it goes through.").optional(),
      to: name("Socket or side it goes to.").optional(),
      from: name("Socket or passage it comes from.").optional(),
      count: count("How many of them.", 1).optional(),
      time: measure("duration", "How long.", { least: 0 }).optional(),
      for: text("What for, or what to look at, in words; `wait` takes a pad or joint that cures.").optional(),
    }),
    `${description}.`,
    {
      short: actForm,
      isNeverEmpty: true,
      alsoTakes: ["array"],
      examples: [
        verb === "feed"
          ? "lead.plug through hood-hole"
          : verb === "wait"
            ? "10 min"
            : verb === "connect"
              ? "lead.plug to driver.power"
              : "plate",
      ],
    },
  ).optional()

/** One optional key a verb. */
const actShape = {
  place: actBody("place", verbs.place),
  remove: actBody("remove", verbs.remove),
  align: actBody("align", verbs.align),
  start: actBody("start", verbs.start),
  tighten: actBody("tighten", verbs.tighten),
  unscrew: actBody("unscrew", verbs.unscrew),
  feed: actBody("feed", verbs.feed),
  withdraw: actBody("withdraw", verbs.withdraw),
  connect: actBody("connect", verbs.connect),
  disconnect: actBody("disconnect", verbs.disconnect),
  strap: actBody("strap", verbs.strap),
  trim: actBody("trim", verbs.trim),
  clean: actBody("clean", verbs.clean),
  stick: actBody("stick", verbs.stick),
  open: actBody("open", verbs.open),
  close: actBody("close", verbs.close),
  turn: actBody("turn", verbs.turn),
  isolate: actBody("isolate", verbs.isolate),
  verify: actBody("verify", verbs.verify),
  restore: actBody("restore", verbs.restore),
  inspect: actBody("inspect", verbs.inspect),
  "set-aside": actBody("set-aside", verbs["set-aside"]),
  discard: actBody("discard", verbs.discard),
  wait: actBody("wait", verbs.wait),
} satisfies Record<Verb, z.ZodType>

const act = field(z.strictObject(actShape), "One checkable act: a verb and what it acts on.")

/** Repeated acts are written out when they are read, so there may not be too many. */
const mostRepeats = 100

const actOrRepeat = field(
  z.strictObject({
    ...actShape,
    repeat: field(
      z.strictObject({
        times: field(z.number().int().min(2).max(mostRepeats), "How many times.", {
          short: countForm,
          examples: ["2"],
          isShortNumber: true,
        }),
        do: field(z.array(act), "What is done each time, in order.", { short: actsForm, alsoTakes: ["object"] }),
      }),
      "The same acts several times, for screws that are changed one at a time.",
    ).optional(),
  }),
  "One checkable act: a verb and what it acts on.",
)

/** A list of acts. */
export const acts = (description: string) =>
  field(z.array(actOrRepeat), description, { short: actsForm, alsoTakes: ["object"] })

const proses = (description: string) =>
  field(z.array(prose("One paragraph.")), description, { isListOfOne: true, examples: ["Mind the edge."] })

/** An entry of `steps`. */
export const step = field(
  z.strictObject({
    title: text("Imperative title; made from the acts when left out.").optional(),
    do: acts("What is done, in order.").default([]),
    text: prose("What the buyer reads.").optional(),
    result: prose("How it looks when it is right.").optional(),
    caution: proses("Shown before the acts.").default([]),
    time: measure("duration", "How long it takes.", { least: 0 }).optional(),
    "needs-after": field(
      z.array(z.strictObject({ step: name("Id of the step."), why: text("Why, as a clause.").optional() })),
      "Steps that must come before, with the reason.",
      { short: needsForm, examples: ["plate"], alsoTakes: ["object"] },
    ).default([]),
    view: field(z.string(), "Where the drawing looks from.", {
      short: viewForm,
      examples: ["front-left-top"],
    }).optional(),
    tools: names("Tools it needs beside those of its screws.").default([]),
    pin: oneOf(["first", "last"], "Keeps it first or last.").optional(),
    "place-before": name("Variant files: put it before this step.").optional(),
    "place-after": name("Variant files: put it after this step.").optional(),
  }),
  "One numbered instruction.",
  { exclusive: [["place-before", "place-after"]] },
)

/** An entry of `hazards`. */
export const hazard = field(
  z.strictObject({
    source: prose("What harms."),
    harm: oneOf(["death", "serious", "moderate", "minor", "damage"], "How bad it gets; `damage` is to things only."),
    may: oneOf(["will", "could"], "How sure it is when not avoided."),
    avoid: prose("How to avoid it."),
    consequence: prose("What happens otherwise.").optional(),
    at: names("Steps it is shown at.").default([]),
  }),
  "A source of harm; gives one safety message.",
)

/** An item of `accept`. */
export const acceptance = field(
  z.strictObject({
    rule: name("Id of the rule."),
    subjects: names("Ids of the things concerned."),
    reason: name("Why it is right here."),
  }),
  "A warning that was looked at and is right as it is.",
)
