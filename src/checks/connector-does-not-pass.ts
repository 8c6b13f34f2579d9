import { placeAt } from "../findings/places.ts"
import { nameOutline } from "../fit/openings.ts"
import type { Act } from "../kit/types.ts"
import { type ChooseEnd, describeAct, prepareEndChoice } from "../sequence/index.ts"
import { sayInstead } from "./cable-words.ts"
import { defineRule, type Subject } from "./types.ts"

/** Finds acts that push a cable end through a closed passage that is too small for it, as it comes off the printer. */
export const connectorDoesNotPass = defineRule({
  id: "connector-does-not-pass",
  severity: "error",
  source: "geometry: rectangle in rectangle after Carver (1957), circles and obrounds exactly",
  check: (subject) => {
    const { kit, fit } = subject
    const choose = prepareEndChoice(kit, fit, subject.sequence)
    const acts = kit.steps.flatMap(({ acts: all }) => all).filter(({ verb }) => verb === "feed" || verb === "withdraw")
    return acts.flatMap((act) => {
      const passage = kit.passages.find(({ id }) => id === act.through)
      const facts = fit.passages.find((one) => one.passage === act.through && one.end === act.target)
      if (passage === undefined || !passage.isClosed || facts === undefined || facts.passes) return []
      const message = `end \`${act.target}\` measures ${nameOutline(facts.envelope)}, \`${passage.id}\` lets ${nameOutline(facts.opening)} pass`
      const fix =
        adviseOther(subject, choose, act) ??
        "Make the opening larger, or open it at one side so that the cable can be laid in."
      return [
        {
          message,
          why: facts.why,
          fix,
          where: placeAt(kit.places, act.path),
          related: [{ message: "the opening", where: placeAt(kit.places, passage.path, "opening") }],
          subjects: [act.target, passage.id],
        },
      ]
    })
  },
})

/** Another end that passes: now, when it is free, else before the step that takes it. */
function adviseOther(subject: Subject, choose: ChooseEnd, act: Act): string | undefined {
  const choice = choose(act)
  const passing = subject.fit.passages
    .filter(({ passage, passes }) => passage === act.through && passes)
    .map(({ end }) => end)
  const now = choice?.instead.find((end) => passing.includes(end))
  if (choice !== undefined && now !== undefined) {
    const words = sayInstead(subject, act, { ...choice, instead: [now] }) ?? ""
    return `${words.slice(0, 1).toUpperCase()}${words.slice(1)}.`
  }
  const taken = choice?.captured.find(({ end, by }) => by !== undefined && end !== act.target && passing.includes(end))
  if (taken?.by === undefined || act.verb !== "feed") return undefined
  return `Feed \`${taken.end}\` instead, which passes, before step \`${taken.by.step}\` ${describeAct(taken.by.act)}.`
}
