import { placeAt } from "../findings/places.ts"
import { nameOutline } from "../fit/openings.ts"
import { defineRule } from "./types.ts"

/** Finds acts that push a cable end through a closed passage that is too small for it, as it comes off the printer. */
export const connectorDoesNotPass = defineRule({
  id: "connector-does-not-pass",
  severity: "error",
  source: "geometry: rectangle in rectangle after Carver (1957), circles and obrounds exactly",
  check: ({ kit, fit }) => {
    const acts = kit.steps.flatMap(({ acts: all }) => all).filter(({ verb }) => verb === "feed" || verb === "withdraw")
    return acts.flatMap((act) => {
      const passage = kit.passages.find(({ id }) => id === act.through)
      const facts = fit.passages.find((one) => one.passage === act.through && one.end === act.target)
      if (passage === undefined || !passage.isClosed || facts === undefined || facts.passes) return []
      const message = `end \`${act.target}\` measures ${nameOutline(facts.envelope)}, \`${passage.id}\` lets ${nameOutline(facts.opening)} pass`
      const cable = kit.cables.find(({ ends }) => ends.some(({ id }) => id === act.target))
      const otherIds = (cable?.ends ?? [])
        .filter(({ id, arrival }) => id !== act.target && arrival.state === "free")
        .map(({ id }) => id)
      const other = fit.passages.find((one) => one.passage === passage.id && one.passes && otherIds.includes(one.end))
      const fix =
        other === undefined
          ? "Make the opening larger, or open it at one side so that the cable can be laid in."
          : `Feed \`${other.end}\` instead, which passes, before \`${act.target}\` is connected.`
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
