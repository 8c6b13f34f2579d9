import { HtmlValidate } from "html-validate"
import { expect, test } from "vitest"
import type { IndexEntry, Proof, Sheet, Words } from "../../src/document/index.ts"
import { renderCard, renderGuide, renderIndex, renderReport, sheets, wordTables } from "../../src/document/index.ts"
import { makeDrawings, makeKit, makeProof, readAssets, text } from "./fixture.ts"

const assets = readAssets()
const drawings = makeDrawings()
const validator = new HtmlValidate({
  extends: ["html-validate:recommended", "html-validate:document"],
  rules: {
    // Ours are lower case, as HTML allows.
    "doctype-style": "off",
    "no-trailing-whitespace": "off",
    // Sizes in mm come from the drawings.
    "no-inline-style": "off",
    "long-title": "off",
    "void-style": "off",
    "require-sri": "off",
  },
})

function wordsOf(language: string): Words {
  const words = wordTables[language]
  if (words === undefined) throw new Error(`no words for ${language}`)
  return words
}

function guide(proof: Proof = makeProof(), sheet: Sheet = sheets.screen, language = "en"): string {
  return renderGuide({ proof, drawings, sheet, words: wordsOf(language), assets }).html
}

/** The words a reader sees, in order: no styles, no titles of drawings, entities resolved. */
function plain(html: string): string {
  return html
    .replace(/<style>.*?<\/style>/gs, "")
    .replace(/<head>.*?<\/head>/gs, "")
    .replace(/<svg.*?<\/svg>/gs, "")
    .replace(/<\/?(?:span|strong|em)[^>]*>/g, "")
    .replace(/<[^>]*>/g, " ")
    .replace(/&amp;/g, "&")
    .replace(/&quot;/g, '"')
    .replace(/&#x27;/g, "'")
    .replace(/&#x60;/g, "`")
    .replace(/&lt;/g, "<")
    .replace(/&gt;/g, ">")
    .replace(/\s+/g, " ")
    .trim()
}

function stepsOf(html: string): readonly string[] {
  return [...html.matchAll(/<section class="step".*?<\/section>/gs)].map(([step]) => step)
}

async function faultsOf(html: string): Promise<readonly string[]> {
  const report = await validator.validateString(html)
  return report.results.flatMap(({ messages }) =>
    messages.map(({ ruleId, message, line }) => `${ruleId}: ${message} (line ${line})`),
  )
}

const entry: IndexEntry = {
  kit: "gauge-arm",
  kitTitle: "Arm for a rain gauge",
  variant: "round-32",
  variantTitle: "Round mast 32",
  fitsWords: "Round tube 32",
  revision: "B",
  overviewSvg: undefined,
  links: [{ kind: "guide", href: "gauge-arm/round-32/guide.html" }],
  errorCount: 0,
  warningCount: 1,
  isCurrent: true,
  verdict: "proved",
}

test("every document is valid HTML", async () => {
  const proof = makeProof()
  const words = wordsOf("en")
  for (const sheet of [sheets.screen, sheets.a4]) expect(await faultsOf(guide(proof, sheet))).toEqual([])
  expect(await faultsOf(renderCard({ proof, drawings, sheet: sheets.a6, words, assets }).html)).toEqual([])
  expect(
    await faultsOf(renderIndex([entry, { ...entry, variant: "square", isCurrent: false }], words, assets).html),
  ).toEqual([])
  expect(await faultsOf(renderReport({ proof, words, assets }).html)).toEqual([])
})

test("the validator sees planted faults", async () => {
  const html = guide()
  expect(await faultsOf(html.replace('id="use"', 'id="box"'))).not.toEqual([])
  expect(await faultsOf(guide(makeProof(), sheets.a4).replace(/ alt="[^"]*"/, ""))).not.toEqual([])
})

test("nothing is fetched and nothing runs", () => {
  for (const sheet of [sheets.screen, sheets.a4]) {
    const html = guide(makeProof(), sheet)
    expect(html).toContain("default-src &#x27;none&#x27;")
    expect(html).not.toMatch(/<script|<link|<iframe|\son[a-z]+=|javascript:/i)
    // Each address stands in a link of ours, never where a browser fetches it.
    expect(html).not.toMatch(/(?:src|url\()\s*=?\s*["']?(?:https?:)?\/\//i)
  }
})

test("the text is the same on every sheet", () => {
  const texts = [sheets.screen, sheets.a4, sheets.letter].map((sheet) => plain(guide(makeProof(), sheet)))
  expect(new Set(texts).size).toBe(1)
})

test("the page size comes from the sheet; the screen leaves it to the reader", () => {
  expect(guide(makeProof(), sheets.letter)).toContain("size: 215.9mm 279.4mm")
  expect(guide(makeProof(), sheets.a4)).toContain("size: 210mm 297mm")
  expect(guide(makeProof(), sheets.screen)).not.toMatch(/@page \{ *size/)
})

test("all sections stand in the order of use", () => {
  const html = guide()
  const ids = [
    "use",
    "box",
    "tools",
    "safety",
    "steps",
    "inspection",
    "aftercare",
    "trouble",
    "removal",
    "order",
    "about",
  ]
  const places = ids.map((id) => html.indexOf(`<section id="${id}"`))
  expect(places.every((place) => place > 0)).toBe(true)
  expect([...places].sort((one, other) => one - other)).toEqual(places)
})

test("each tightening line holds count, designation, tool and torque", () => {
  // ISO 4762 M4 and the values of the fixture.
  const lines = [...guide().matchAll(/<li><span class="act">.*?<\/li>/gs)].map(([line]) => plain(line))
  expect(lines.filter((line) => line.startsWith("Tighten"))).toEqual([
    "Tighten 2 × cap screw ISO 4762 - M4 x 14 - A2-70 (2) with the hex key 3 mm to 1.25 N·m",
    "Tighten 4 × cap screw ISO 4762 - M4 x 12 - A2-70 (3) with the hex key 3 mm to 1.1 N·m",
    "Tighten 2 × thread-forming pan-head screw M3 x 10 PZ1 (9) with the cross-recess driver PZ1 to 0.5 N·m",
  ])
})

test("a screw without a torque has an end state instead", () => {
  const { fit } = makeProof()
  const joints = fit.joints.map((joint) => ({
    ...joint,
    torque: { ...joint.torque, valueNm: undefined, origin: undefined },
  }))
  const shown = plain(guide(makeProof({}, { joints })))
  expect(shown).toContain("until the head rests on its seat, then stop")
  expect(shown).not.toMatch(/undefined|NaN/)
})

test("messages stand before the first act of their step", () => {
  const steps = stepsOf(guide())
  const withMessages = steps.filter((step) => step.includes('class="message'))
  expect(withMessages.length).toBe(4)
  for (const step of withMessages) expect(step.lastIndexOf('class="message')).toBeLessThan(step.indexOf('class="acts"'))
})

test("metal threads bring a notice about crooked starts, plastic ones about the torque", () => {
  const [, plate = "", , , hood = ""] = stepsOf(guide()).map(plain)
  expect(plate).toContain("in by hand for two turns before you use a tool")
  expect(plate).toContain("Stop at 1.25 N·m for 2 × cap screw ISO 4762 - M4 x 14 - A2-70 (2) and at 1.1 N·m for")
  expect(hood).toContain("The thread in the plastic strips")
  expect(hood).not.toContain("by hand for two turns")
})

test("the unit's own screws are kept, changed one by one, and named as the shorter ones", () => {
  const [, plate = ""] = stepsOf(guide()).map(plain)
  expect(plate).toContain("one at a time")
  expect(plate).toContain("14 mm instead of 8 mm")
})

test("signal words follow the hazard; NOTICE has no alert symbol", () => {
  const html = guide()
  const messages = [...html.matchAll(/<div class="message (\w+)".*?<strong>(\w+)<\/strong>/gs)]
  expect(messages.length).toBeGreaterThan(6)
  for (const [message, signal = "", word = ""] of messages) {
    expect(word).toBe(wordsOf("en").signal[signal as keyof Words["signal"]])
    expect(message.includes('class="alert"')).toBe(signal !== "notice")
  }
})

test("each hazard stands in the safety section and at its step", () => {
  const html = guide()
  const [safety = ""] = /<section id="safety".*?<\/section>/s.exec(html) ?? []
  for (const words of ["Switch the gauge off.", "Keep the place under the mast free"]) {
    expect(plain(safety)).toContain(words)
    expect(stepsOf(html).some((step) => step.includes(`class="avoid">${words}`))).toBe(true)
  }
})

test("item references in steps are those of the box, and every item of the box is used", () => {
  const html = guide()
  const [box = ""] = /<section id="box".*?<section id="tools"/s.exec(html) ?? []
  const listed = new Set([...box.matchAll(/<td class="reference">(\d+)/g)].map(([, number]) => number))
  const taken = new Set(
    stepsOf(html).flatMap((step) => [...step.matchAll(/<td class="reference">(\d+)/g)].map(([, number]) => number)),
  )
  expect([...taken].sort()).toEqual([...listed].sort())
})

test("the box counts what the steps use and the spares together", () => {
  const [box = ""] = /<section id="box".*?<section id="tools"/s.exec(guide()) ?? []
  expect(plain(box)).toContain("3 5 × Cap screw ISO 4762 - M4 x 12 - A2-70 1")
})

test("references of the maker's text become names, item references and torques", () => {
  const [, plate = "", mast = "", lead = ""] = stepsOf(guide()).map(plain)
  expect(plate).toContain("Start the long ones (2) by hand, then tighten to 1.25 N·m. The plate (1) lies flat")
  expect(mast).toContain("Close the clamp tie (6) round the mast")
  expect(lead).toContain("Put the plug of the lead through the hood before you plug it in.")
})

test("hostile Markdown loses markup, scripts and pictures, and keeps its words", () => {
  const steps = [
    {
      ...(makeKit().steps[0] ?? makeKit().steps[1] ?? neverStep()),
      text: text(
        'Words <b onclick="x()">stay</b>\n\n<script>alert(1)</script>\n\n# Heading\n\n![alt words](https://example.invalid/x.png) [link](javascript:alert(1)) `code`',
      ),
    },
  ]
  const html = guide(makeProof({ steps }))
  expect(html).not.toMatch(/<script|onclick|javascript:|x\.png/)
  const [step = ""] = stepsOf(html)
  expect(plain(step)).toContain("Words stay")
  expect(plain(step)).toContain("Heading alt words link code")
  expect(step).not.toContain("<h1")
})

test("names with markup are printed as they are written", async () => {
  const title = 'Arm </style><script>alert("1")</script> & more'
  const html = guide(makeProof({ title }))
  expect(html).not.toContain("<script")
  expect(plain(html)).toContain(title)
  expect(await faultsOf(html)).toEqual([])
})

test("nothing undefined, and no word of another variant, reaches the page", () => {
  for (const language of ["en", "de"]) {
    const shown = plain(guide(makeProof(), sheets.screen, language))
    expect(shown).not.toMatch(/undefined|NaN|\[object|null/)
  }
  expect(guide()).not.toContain("round-48")
})

test("numbers take the form of the language, with a no-break space before the unit", () => {
  // The maker's own texts keep the form of the maker's language.
  const raw = guide(makeProof(), sheets.screen, "de")
    .replace(/<style>.*?<\/style>/gs, "")
    .replace(/<div class="maker".*?<\/div>/gs, "")
  expect(raw).toContain("1,25\u00a0N·m")
  expect(raw).toContain("31,5\u00a0mm bis 32,5\u00a0mm")
  expect(raw).toContain("\u221210\u00a0°C bis 45\u00a0°C")
  expect(raw).not.toMatch(/\d\.\d+\s(mm|N·m|kg)/)
  for (const language of ["en", "de"]) {
    const shown = guide(makeProof(), sheets.screen, language)
      .replace(/<style>.*?<\/style>/gs, "")
      .replace(/<svg.*?<\/svg>/gs, "")
    expect(shown).not.toMatch(/\d (?:mm|N·m|kg|°C|min)(?![\w])/)
  }
})

test("a limit with an open end says so", () => {
  const limits = { ...makeKit().limits, temperatureC: { min: Number.NEGATIVE_INFINITY, max: 45 } }
  expect(plain(guide(makeProof({ limits })))).toContain("Temperature up to 45 °C")
})

test("figures are numbered without gaps and have words and a text alternative", () => {
  const html = guide(makeProof(), sheets.a4)
  const labels = [...html.matchAll(/<p class="caption"><strong>Figure (\d+)<\/strong> ([^<]*)/g)]
  expect(labels.map(([, number]) => Number(number))).toEqual([1, 2, 3, 4, 5])
  for (const [, , caption = ""] of labels) expect(caption.length).toBeGreaterThan(8)
  const alternatives = [...html.matchAll(/class="figure".*?alt="([^"]*)"/gs)].map(([, alt = ""]) => alt)
  expect(alternatives.length).toBe(5)
  for (const alt of alternatives) {
    expect(alt.length).toBeGreaterThanOrEqual(10)
    expect(alt.length).toBeLessThanOrEqual(200)
  }
})

test("the figure of a long step is made smaller, so that the step stays on one page, but not below 45 %", () => {
  const hoodWidth = (lines: number): number => {
    const steps = makeKit()
      .steps.filter((step) => step.id === "hood")
      .map((step) => ({
        ...step,
        text: text("Hold it with one hand while you go on with the other one.\n\n".repeat(lines)),
      }))
    const [hood = ""] = stepsOf(guide(makeProof({ steps })))
    return Number(/class="picture" style="max-width:([\d.]+)mm"/.exec(hood)?.[1])
  }
  const widths = [1, 3, 8, 14, 60].map(hoodWidth)
  expect(widths[0]).toBe(120)
  expect([...widths].sort((one, other) => other - one)).toEqual(widths)
  expect(widths[2]).toBeLessThan(119)
  expect(widths[2]).toBeGreaterThan(67)
  expect(widths.at(-1)).toBe(54)
})

test("the last check of the inspection lists what is left on the table: spares, the unit's own screws, tools", () => {
  const [left = ""] = /<li id="left-over".*?<\/section>/s.exec(guide()) ?? []
  expect(plain(left)).toMatch(/^On the table lie these things and nothing else:/)
  expect(plain(left)).toContain("Your tools.")
  expect(plain(left)).toContain("1 × cap screw ISO 4762 - M4 x 12 - A2-70 (3): spare.")
  expect(plain(left)).toContain(
    "2 × cap screw ISO 4762 - M4 x 8 - A2-70: own screws of your unit, in bag “Screws of the unit”.",
  )
})

test("equal own screws of several places lie on the table as one line", () => {
  const { ownJoints, steps } = makeKit()
  const [foot] = ownJoints
  if (foot === undefined) throw new Error("the fixture has no own screws")
  const side = { ...foot, id: "gauge.side", count: 3, alsoHolds: undefined }
  const more = steps.map((step) =>
    step.id === "plate"
      ? {
          ...step,
          acts: step.acts.flatMap((act) => (act.target === foot.id ? [act, { ...act, target: side.id }] : [act])),
        }
      : step,
  )
  const html = guide(makeProof({ ownJoints: [foot, side], steps: more }))
  const [left = ""] = /<li id="left-over".*?<\/section>/s.exec(html) ?? []
  expect(plain(left).match(/\d × cap screw [^:]*: own screws of your unit/g)).toEqual([
    "5 × cap screw ISO 4762 - M4 x 8 - A2-70: own screws of your unit",
  ])
})

test("a list in a result gives one box to tick for each item", () => {
  const steps = makeKit().steps.map((step) =>
    step.id === "done" ? { ...step, result: text("- The lamp is green.\n- Nothing rattles.\n") } : step,
  )
  const done = stepsOf(guide(makeProof({ steps }))).at(-1) ?? ""
  expect([...done.matchAll(/<li><label>.*?<\/label>/gs)].map(([line]) => plain(line))).toEqual([
    "The lamp is green.",
    "Nothing rattles.",
  ])
})

test("why this order names the end that fits, what is fed first, and what the maker declared", () => {
  const { fit } = makeProof()
  const [through] = fit.passages
  if (through === undefined) throw new Error("the fixture has no passage")
  const tooBig = { ...through, end: "lead.inner", envelope: { ...through.envelope, widthMm: 26 }, passes: false }
  const [order = ""] =
    /<section id="order".*?<\/section>/s.exec(guide(makeProof({}, { passages: [through, tooBig] }))) ?? []
  const shown = plain(order)
  expect(shown).toContain("Feed the plug of the lead through the hole in the hood before you connect it")
  expect(shown).toContain("the inner end of the lead (26 × 9 mm) does not go through the hole in the hood (14 × 10 mm)")
  expect(shown).toContain("(Close the hood): the plug does not reach the socket once the hood is on.")
})

test("the report shows each finding with place, reason and advice, and the computed values", () => {
  const where = { file: "kit.yaml", path: ["joints", "foot"], line: 7, column: 3, endLine: 7, endColumn: 9 }
  const finding = {
    id: "screw-too-short",
    severity: "error" as const,
    message: "screw `foot` is 8 mm long, this joint needs 12 mm",
    where,
    why: "parts 6 mm",
    fix: "take a longer screw",
    related: [{ message: "parts clamped here", where: { ...where, line: 9 } }],
    subjects: [],
    variants: [],
  }
  const { html } = renderReport({ proof: { ...makeProof(), findings: [finding] }, words: wordsOf("en"), assets })
  const shown = plain(html)
  expect(shown).toContain("1 error, 0 warnings, 0 notes.")
  for (const words of [
    finding.message,
    "kit.yaml:7:3",
    "screw-too-short",
    "parts 6 mm",
    "take a longer screw",
    "kit.yaml:9:3",
  ]) {
    expect(shown).toContain(words)
  }
  expect(shown).toContain("foot 6 mm measured on plate.stl 8 mm 1.25 N·m")
  expect(shown).toContain("hood-hole lead.plug 14 × 10 mm 12 × 9 mm yes")
})

test("a screw in plastic is stopped for what gives way first: its thread, or the plastic under its head", () => {
  const { fit } = makeProof()
  const noticesOf = (governing: string): string => {
    const joints = fit.joints.map((joint) => ({ ...joint, torque: { ...joint.torque, governing } }))
    return plain(stepsOf(guide(makeProof({}, { joints }))).find((step) => step.includes("Close the hood")) ?? "")
  }
  expect(noticesOf("PETG strips")).toMatch(/The thread in the plastic strips/)
  expect(noticesOf("PETG under the head yields")).not.toMatch(/The thread in the plastic strips/)
  expect(noticesOf("PETG under the head yields")).toMatch(/More torque crushes or cracks the plastic of the rain hood/)
})

/** Lines of the removal section. */
function removalOf(html: string): readonly string[] {
  const [removal = ""] = /<section id="removal".*?<\/section>/s.exec(html) ?? []
  return [...removal.matchAll(/<li>(.*?)<\/li>/g)].map(([, line = ""]) => plain(line))
}

test("removal begins with switching off, ends with switching on, and puts the own screws back after the plate is off", () => {
  const ownJoints = makeKit().ownJoints.map((own) => ({ ...own, alsoHolds: undefined }))
  const lines = removalOf(guide(makeProof({ ownJoints })))
  expect(lines[0]).toBe("Disconnect the rain gauge from its supply")
  expect(lines.at(-1)).toBe("Switch the supply of the rain gauge on again")
  const plateOff = lines.indexOf("Take off the plate (1)")
  const screwsBack = lines.findIndex((line) => line.startsWith("Screw the unit's own screws back in"))
  expect(plateOff).toBeGreaterThan(0)
  expect(screwsBack).toBeGreaterThan(plateOff)
})

test("screws that hold something else are changed back one at a time, before the plate is off", () => {
  const lines = removalOf(guide())
  const change = lines.indexOf(
    "One screw at a time, change 2 × cap screw ISO 4762 - M4 x 14 - A2-70 (2) for the unit's own screws: 2 × cap screw ISO 4762 - M4 x 8 - A2-70 (own screws); torque as the guide of the unit says",
  )
  expect(change).toBeGreaterThan(0)
  expect(lines.indexOf("Take off the plate (1)")).toBeGreaterThan(change)
  expect(lines.filter((line) => line.includes("own screws back in"))).toEqual([])
})

test("removal ends with what mounting it again needs anew", () => {
  const [removal = ""] = /<section id="removal".*?<\/section>/s.exec(guide()) ?? []
  expect(plain(removal)).toContain("To mount the kit again, you need new: 4 × clamp tie (6).")
  const withoutTies = makeProof({ steps: makeKit().steps.filter(({ id }) => id !== "mast") })
  expect(plain(guide(withoutTies))).not.toContain("you need new")
})

test("a tie that carries a piece is opened with a hand on the piece, one round a cable alone is not", () => {
  const carrying = removalOf(guide())
  expect(carrying).toContain("Hold what it carries, then open or cut 4 × clamp tie (6); what was cut is not used again")
  const ties = makeKit().ties.map((tie) => ({ ...tie, holds: ["lead"] }))
  expect(removalOf(guide(makeProof({ ties })))).toContain(
    "Open or cut 4 × clamp tie (6); what was cut is not used again",
  )
})

test("the same proof gives the same bytes", () => {
  expect(guide(makeProof(), sheets.a4)).toBe(guide(makeProof(), sheets.a4))
})

function neverStep(): never {
  throw new Error("the fixture has no steps")
}
