/** The lines that only the order proof can print: why now, the last chance to check, where to stop. */
import { describe, expect, test } from "vitest"
import { renderGuide, sheets, wordTables } from "../../src/document/index.ts"
import type { Proof } from "../../src/document/types.ts"
import type { Advice } from "../../src/sequence/advice-types.ts"
import { makeDrawings, makeKit, makeProof, readAssets } from "./fixture.ts"

const assets = readAssets()

function linesOf(proof: Proof, language = "en"): string {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  const { html } = renderGuide({ proof, drawings: makeDrawings(), sheet: sheets.screen, words, assets })
  return html
    .replace(/<(style|svg).*?<\/\1>/gs, "")
    .replace(/<\/?(?:span|strong|em|label)[^>]*>/g, "")
    .replace(/<[^>]*>/g, "|")
    .replace(/&#x27;/g, "'")
    .replace(/[\s|]*\|[\s|]*/g, "|")
    .replace(/\s+/g, " ")
}

/** The fixture with other advice, and with so many steps before its own. */
function advise(advice: Partial<Advice>, more = 0): Proof {
  const steps = [
    ...Array.from({ length: more }, (_, index) => {
      const [first] = makeKit().steps
      if (first === undefined) throw new Error("the fixture has no steps")
      return { ...first, id: `more-${index}`, path: `steps/more-${index}`, acts: [] }
    }),
    ...makeKit().steps,
  ]
  const proof = makeProof(more === 0 ? {} : { steps })
  return { ...proof, sequence: { ...proof.sequence, advice: { ...proof.sequence.advice, ...advice } } }
}

describe("why now", () => {
  const reason = { kind: "in-the-way", step: "plate", other: "hood", act: "", byAct: "", fact: "off:hood" } as const

  test("stands at a step that a later one bars, with the number of that step", () => {
    const shown = linesOf(advise({ reasons: [reason] }))
    expect(shown).toMatch(/\|Do this now: from step 5 on, the rain hood \(\d\) is in the way\.\|/)
    expect(linesOf(advise({ reasons: [reason] }), "de")).toMatch(
      /\|Jetzt erledigen: ab Schritt 5 ist Rain hood \(\d\) im Weg\.\|/,
    )
  })

  test("is not told for what the next step bars, nor for a door that opens again", () => {
    expect(linesOf(advise({ reasons: [{ ...reason, step: "lead" }] }))).not.toContain("Do this now")
    expect(linesOf(advise({ reasons: [{ ...reason, kind: "shut" }] }))).not.toContain("Do this now")
  })

  test("is one line for a step, the end that does not pass before all else", () => {
    const otherEnd = { step: "plate", act: "", end: "lead.plug", other: "lead.inner", passage: "hood-hole" }
    const shown = linesOf(advise({ reasons: [reason], otherEnds: [otherEnd] }))
    expect(shown).toContain("Feed the plug of the lead, not the inner end of the lead")
    expect(shown).not.toContain("Do this now")
  })
})

describe("the last chance to check", () => {
  const chance = { kind: "end", id: "lead.plug", other: "gauge.power" } as const
  const joint = { kind: "joint", id: "foot", other: undefined } as const

  test("stands with a box to tick before the act that takes the checks away, in one line", () => {
    const act = makeKit().steps.find(({ id }) => id === "hood")?.acts[0]
    const point = { step: "hood", act: act?.path ?? "", kind: "closed-in", lastChance: [chance, joint] } as const
    const shown = linesOf(advise({ noReturn: [point] }))
    expect(shown).toMatch(
      /\|Last chance to check: the plug of the lead is connected to the [^;]*; 2 × cap screw [^;]* tightened to 1\.25 N·m\.\|?\s?Place the rain hood/,
    )
    expect(linesOf(advise({ noReturn: [point] }), "de")).toMatch(/\|Letzte Gelegenheit zu prüfen: [^|]*1,25 N·m/)
  })

  test("names screws of the unit as its own", () => {
    const act = makeKit().steps.find(({ id }) => id === "hood")?.acts[0]
    const own = { kind: "joint", id: "gauge.foot", other: undefined } as const
    const point = { step: "hood", act: act?.path ?? "", kind: "closed-in", lastChance: [own] } as const
    expect(linesOf(advise({ noReturn: [point] }))).toMatch(
      /\|Last chance to check: 2 × cap screw [^|;]*\(own screws\) tight, every head on its seat\./,
    )
  })

  test("is told again in the final inspection, with the step where it was ticked", () => {
    const act = makeKit().steps.find(({ id }) => id === "hood")?.acts[0]
    const point = { step: "hood", act: act?.path ?? "", kind: "closed-in", lastChance: [joint] } as const
    const shown = linesOf(advise({ noReturn: [point] }))
    expect(shown).toMatch(/\|2 × cap screw [^|]* tightened to 1\.25 N·m \(ticked in step 5\)\.\|/)
    expect(shown.match(/\(ticked in /g)).toHaveLength(1)
  })

  test("is not told where nothing is closed in", () => {
    const point = { step: "mast", act: "", kind: "stuck", lastChance: [] } as const
    expect(linesOf(advise({ noReturn: [point] }))).not.toContain("Last chance")
  })
})

describe("places to stop", () => {
  const stop = (afterStep: string, isLastForNow: boolean, isIsolated = true) => ({
    afterStep,
    isLastForNow,
    isIsolated,
  })

  test("are told on page 1 and before steps that cannot be left, in a kit of more than six steps", () => {
    const safeStops = [
      stop("more-0", false),
      stop("more-1", false),
      stop("more-2", true),
      stop("mast", true, false),
      stop("hood", false),
    ]
    const shown = linesOf(advise({ safeStops }, 3))
    expect(shown).toContain("|You can stop after steps 1 to 3, ")
    expect(shown).toMatch(/\|You can stop here; leave the power off\. The next place to stop is after step \d\.\|/)
    expect(shown).toMatch(/\|You can stop here\. The next place to stop is after step \d\.\|/)
    expect(linesOf(advise({ safeStops }, 3), "de")).toContain(
      "Hier können Sie unterbrechen; die Versorgung bleibt getrennt",
    )
    expect(linesOf(advise({ safeStops }))).not.toContain("You can stop")
  })

  test("are not told where the work can be left after each step", () => {
    const safeStops = [...makeKit().steps, { id: "more-0" }, { id: "more-1" }, { id: "more-2" }]
      .slice(0, -1)
      .map(({ id }) => stop(id, false))
    expect(linesOf(advise({ safeStops }, 3))).not.toContain("You can stop")
  })
})
