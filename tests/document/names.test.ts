/** Names, item references and counts: each from the thing that is meant. */
import { expect, test } from "vitest"
import type { Proof } from "../../src/document/index.ts"
import { renderGuide, sheets, wordTables } from "../../src/document/index.ts"
import type { Drawings } from "../../src/drawing/types.ts"
import type { Act, Kit } from "../../src/kit/types.ts"
import { makeDrawings, makeKit, makeProof, readAssets } from "./fixture.ts"

const assets = readAssets()

/** Words of each step, without markup and pictures. */
function steps(proof: Proof, language = "en", drawings: Drawings = makeDrawings()): readonly string[] {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  const { html } = renderGuide({ proof, drawings, sheet: sheets.screen, words, assets })
  return [...html.matchAll(/<section class="step".*?<\/section>/gs)].map(([step]) =>
    step
      .replace(/<svg.*?<\/svg>/gs, "")
      .replace(/<\/?(?:span|strong|em)[^>]*>/g, "")
      .replace(/<[^>]*>/g, " ")
      .replace(/\s+/g, " "),
  )
}

/** The kit of the fixture with one step only. */
function withActs(kit: Kit, ...acts: readonly (Partial<Act> & Pick<Act, "verb" | "target">)[]): Kit {
  const [pattern] = kit.steps
  const [act] = pattern?.acts ?? []
  if (pattern === undefined || act === undefined) throw new Error("the fixture has no steps")
  const bare = { ...act, instances: [], through: undefined, to: undefined }
  const bareStep = { ...pattern, text: undefined, result: undefined, title: "One step" }
  return { ...kit, steps: [{ ...bareStep, acts: acts.map((each) => ({ ...bare, ...each })) }] }
}

test("things of different kinds may share an id: each keeps its own name and number", () => {
  const kit = makeKit()
  const shared: Kit = {
    ...kit,
    joints: kit.joints.map((joint) => (joint.id === "foot" ? { ...joint, id: "gauge" } : joint)),
    ties: kit.ties.map((tie) => ({ ...tie, id: "lead" })),
    cables: kit.cables.map((cable) => ({ ...cable, isSupplied: false, itemReference: undefined })),
  }
  const acts = [
    { verb: "isolate", target: "gauge" },
    { verb: "place", target: "gauge", instances: ["gauge"] },
    { verb: "strap", target: "lead" },
    { verb: "set-aside", target: "lead" },
    { verb: "start", target: "gauge" },
  ] as const
  const [shown = ""] = steps(makeProof(withActs(shared, ...acts)))
  expect(shown).toContain("Disconnect the rain gauge from its supply")
  expect(shown).toContain("Place the rain gauge ")
  expect(shown).toContain("Close 4 × clamp tie (6)")
  expect(shown).toContain("Start 2 × cap screw ISO 4762 - M4 x 14 - A2-70 (2) by hand")
})

test("what belongs to the buyer's unit has no number, since no list shows it", () => {
  const kit = makeKit()
  const [plate] = kit.parts
  if (plate === undefined) throw new Error("the fixture has no parts")
  const door = { ...plate, id: "door", name: "door", itemReference: 17, ownedBy: "gauge", instances: ["door"] }
  const [shown = ""] = steps(
    makeProof(withActs({ ...kit, parts: [...kit.parts, door] }, { verb: "open", target: "door" })),
  )
  expect(shown).toContain("Open the door ")
  expect(shown).not.toContain("(17)")
})

test("of a joint that is started bit by bit, each step takes and shows what it starts", () => {
  const kit = makeKit()
  const [first] = withActs(kit, { verb: "start", target: "foot", count: 1 }).steps
  const [second] = withActs(kit, { verb: "start", target: "foot", count: 1 }, { verb: "tighten", target: "foot" }).steps
  const [third] = withActs(kit, { verb: "start", target: "rim", count: 1 }, { verb: "tighten", target: "rim" }).steps
  if (first === undefined || second === undefined || third === undefined) throw new Error("no steps")
  const drawings = makeDrawings()
  const pattern = drawings.steps.plate
  if (pattern === undefined) throw new Error("no drawing")
  const pointing = (itemReference: number) => ({
    ...pattern,
    references: [{ itemReference, count: 2, at: [1, 1], anchor: [2, 2], end: "dot", of: "foot" } as const],
  })
  const shown = steps(makeProof({ steps: [first, { ...second, id: "second" }, { ...third, id: "third" }] }), "en", {
    ...drawings,
    steps: { [first.id]: pointing(2), second: pointing(2), third: pointing(3) },
  })
  for (const step of shown.slice(0, 2)) {
    expect(step).toContain("2 1 × Cap screw ISO 4762 - M4 x 14 - A2-70")
    expect(step).toContain("New: cap screw ISO 4762 - M4 x 14 - A2-70 (2).")
  }
  // One is started by name, the other three come with the act that tightens all four.
  expect(shown[2]).toContain("3 4 × Cap screw ISO 4762 - M4 x 12 - A2-70")
})

test("ends of several cables that are called alike are told apart by their cable", () => {
  const kit = makeKit()
  const [lead] = kit.cables
  const [end] = lead?.ends ?? []
  if (lead === undefined || end === undefined) throw new Error("the fixture has no cable")
  const cables = ["power lead", "signal lead"].map((name) => {
    const id = name.replace(" ", "-")
    return { ...lead, id, name, ends: [{ ...end, id: `${id}.plug`, name: "plug" }] }
  })
  const acts = cables.map(({ id }) => ({ verb: "connect", target: `${id}.plug`, to: "gauge.power" }) as const)
  const [shown = ""] = steps(makeProof(withActs({ ...kit, cables }, ...acts)))
  expect(shown).toContain("Connect the plug of the power lead to the power socket")
  expect(shown).toContain("Connect the plug of the signal lead to the power socket")
})

test("an act in the maker's own words is printed in them", () => {
  const acts = [
    { verb: "inspect", target: "", words: "nothing rattles" },
    { verb: "clean", target: "", words: "both faces of the beam." },
    { verb: "wait", target: "", words: "until the glue is dry", minutes: 10 },
  ] as const
  const [english = ""] = steps(makeProof(withActs(makeKit(), ...acts)))
  expect(english).toContain("Check: nothing rattles")
  expect(english).toContain("Clean: both faces of the beam ")
  expect(english).toMatch(/Wait: until the glue is dry +10 min/)
  const [german = ""] = steps(makeProof(withActs(makeKit(), ...acts)), "de")
  expect(german).toContain("Prüfen: nothing rattles")
})

test("fasteners are called by their kind in both languages", () => {
  const joint = [{ verb: "start", target: "foot" } as const, { verb: "start", target: "hood-joint" } as const]
  const [english = ""] = steps(makeProof(withActs(makeKit(), ...joint)))
  expect(english).toContain("cap screw ISO 4762 - M4 x 14 - A2-70 (2)")
  expect(english).toContain("thread-forming pan-head screw M3 x 10 PZ1 (9)")
  const [german = ""] = steps(makeProof(withActs(makeKit(), ...joint)), "de")
  expect(german).toContain("Zylinderschraube ISO 4762 - M4 x 14 - A2-70 (2)")
  expect(german).toContain("gewindeformende Flachkopfschraube M3 x 10 PZ1 (9)")
})

test("screws of the unit that go back into it are neither kept nor left over", () => {
  const away = [
    { verb: "unscrew", target: "gauge.foot" } as const,
    { verb: "set-aside", target: "gauge.foot" } as const,
  ]
  const back = [{ verb: "start", target: "gauge.foot" } as const, { verb: "tighten", target: "gauge.foot" } as const]
  const words = wordTables.en
  if (words === undefined) throw new Error("the English words are missing")
  const guide = (kit: Kit): string =>
    renderGuide({ proof: makeProof(kit), drawings: makeDrawings(), sheet: sheets.screen, words, assets }).html
  const kept = guide(withActs(makeKit(), ...away))
  expect(kept).toContain("own screws of your unit")
  expect(kept).toMatch(/Keep 2\u00a0×[^<]* of your unit/)
  const returned = guide(withActs(makeKit(), ...away, ...back))
  expect(returned).not.toContain("own screws of your unit")
  expect(returned).not.toMatch(/Keep 2\u00a0×[^<]* of your unit/)
})

test("plastic is called crushed where it lies under a head or nut only", () => {
  const kit = makeKit()
  const [plate] = kit.parts
  const [foot] = kit.joints
  if (plate === undefined || foot === undefined) throw new Error("the fixture has no parts")
  const metal = { name: "aluminium", kind: "aluminium" } as const
  const parts = [plate, ...kit.parts.slice(1), { ...plate, id: "bar", name: "bar", itemReference: 20, material: metal }]
  const crushed = (through: readonly string[], kind: "tapped" | "nut"): boolean => {
    const joint = { ...foot, through, bore: { ...foot.bore, kind } }
    const shown = steps(makeProof(withActs({ ...kit, parts, joints: [joint] }, { verb: "tighten", target: "foot" })))
    return (shown[0] ?? "").includes("crushes or cracks the plastic of the plate (1)")
  }
  expect(crushed(["plate", "bar"], "tapped")).toBe(true)
  expect(crushed(["bar", "plate"], "tapped")).toBe(false)
  expect(crushed(["bar", "plate"], "nut")).toBe(true)
})
