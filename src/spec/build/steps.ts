/** Steps, acts and hazards of a spec from the typed long form. */
import type { z } from "zod"
import type { hazard, step } from "../schema/steps.ts"
import { verbs } from "../short/acts.ts"
import type { ActSpec, HazardSpec, StepSpec, Verb } from "../types.ts"
import { type Build, textAt, textsAt } from "./context.ts"

type GivenAct = z.output<typeof step>["do"][number]

/** Acts in order, repeated ones written out; one whose body was at fault is left out. */
export function buildActs(
  given: readonly (Omit<GivenAct, "repeat"> & Partial<Pick<GivenAct, "repeat">>)[],
  path: string,
): readonly ActSpec[] {
  return given.flatMap((act, index) => {
    if (act.repeat !== undefined) {
      const once = buildActs(act.repeat.do, `${path}/${index}/repeat/do`)
      return Array.from({ length: act.repeat.times }, () => once.map((one) => ({ ...one }))).flat()
    }
    const verb = verbNames.find((name) => act[name] !== undefined)
    const body = verb === undefined ? undefined : act[verb]
    if (verb === undefined || body === undefined) return []
    return [
      {
        path: `${path}/${index}`,
        verb,
        target: body.what ?? "",
        through: body.through ?? (verb === "withdraw" ? body.from : undefined),
        to: body.to ?? (verb === "withdraw" ? undefined : body.from),
        count: body.count,
        minutes: body.time,
        words: body.for,
      },
    ]
  })
}

// The keys of a literal record are its verbs.
const verbNames = Object.keys(verbs) as readonly Verb[]

/** Gives a step with its acts and texts; texts keep the place of every letter. */
export function buildStep(build: Build, id: string, given: z.output<typeof step>): StepSpec {
  const path = `steps/${id}`
  return {
    id,
    path,
    title: given.title,
    acts: buildActs(given.do, `${path}/do`),
    text: textAt(build, "steps", id, "text"),
    result: textAt(build, "steps", id, "result"),
    caution: textsAt(build, "steps", id, "caution"),
    needsAfter: given["needs-after"].map((need, index) => ({
      step: need.step,
      why: need.why,
      path: `${path}/needs-after/${index}`,
    })),
    minutes: given.time,
    view: given.view,
    tools: given.tools,
    pinned: given.pin,
  }
}

/** A hazard whose texts were at fault is left out. */
export function buildHazard(build: Build, id: string, given: z.output<typeof hazard>): readonly HazardSpec[] {
  const source = textAt(build, "hazards", id, "source")
  const avoid = textAt(build, "hazards", id, "avoid")
  if (source === undefined || avoid === undefined) return []
  return [
    {
      id,
      path: `hazards/${id}`,
      source,
      harm: given.harm,
      may: given.may,
      avoid,
      consequence: textAt(build, "hazards", id, "consequence"),
      steps: given.at,
    },
  ]
}
