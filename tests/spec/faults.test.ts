import { expect, test } from "vitest"
import { baseKit, change } from "./base-kit.ts"
import { brief, first, load } from "./kit.ts"

type Case = {
  readonly name: string
  readonly from: string
  /** `§` stands where the finding is to point; it is taken out before the kit is loaded. */
  readonly to: string
  readonly id: string
  readonly says?: RegExp
}

/** Splits the mark off; gives the text and the line and column the mark stood at. */
function takeMark(marked: string): { readonly kit: string; readonly at: string } {
  const [before = "", after, more] = marked.split("§")
  if (after === undefined || more !== undefined) throw new Error(`one mark is needed: ${marked}`)
  const lines = before.split("\n")
  return { kit: before + after, at: `${lines.length}:${(lines.at(-1) ?? "").length + 1}` }
}

/** Each fault alone: the finding, its place, and nothing else. */
const cases: readonly Case[] = [
  {
    name: "mistyped key pairs with the missing one",
    from: "length: 600",
    to: "§lenght: 600",
    id: "unknown-key",
    says: /cable `lead` has `lenght` but no `length`.*rename `lenght` to `length`/s,
  },
  {
    name: "mistyped key at the top",
    from: "passages:",
    to: "§passage:",
    id: "unknown-key",
    says: /rename `passage` to `passages`/,
  },
  { name: "key that is like none", from: "plastic: PETG, copies", to: "§colour: red, copies", id: "unknown-key" },
  {
    name: "key of the thing around, where every key of its own is written",
    from: "ties: 4 x 4.8x300, holds",
    to: "ties: { count: 4, width: 4.8, length: 300, §thickness: 1.3 }, holds",
    id: "unknown-key",
    says: /one level further out/,
  },
  {
    name: "camel case key",
    from: "    do: [stick",
    to: "    §needsAfter: plate\n    do: [stick",
    id: "unknown-key",
    says: /rename `needsAfter` to `needs-after`/,
  },
  {
    name: "missing key points at its owner",
    from: "  foot: { screws: 2 x ISO 4762 M4x14, through: plate",
    to: "  §foot: { screws: 2 x ISO 4762 M4x14",
    id: "missing-key",
    says: /joint `foot` has no `through`/,
  },
  { name: "missing title points at the kit", from: "kit: arm\ntitle: Arm\n", to: "§kit: arm\n", id: "missing-key" },
  {
    name: "missing date points at revision",
    from: "revision: { id: A, date: 2026-01-01",
    to: "§revision: { id: A",
    id: "missing-key",
  },
  { name: "date with the year last", from: "date: 2026-01-01", to: "date: §01.02.2026", id: "unreadable-value" },
  {
    name: "day that is not in the calendar",
    from: "date: 2026-01-01",
    to: "date: §2026-02-29",
    id: "unreadable-value",
  },
  {
    name: "text for a number",
    from: "depth: 9",
    to: "depth: §deep",
    id: "not-a-number",
    says: /`depth` of bore `gauge.foot` is the text `deep`; needed is a number/,
  },
  {
    name: "unit of another kind",
    from: "length: 600",
    to: "length: §6 kg",
    id: "wrong-unit",
    says: /`kg` measures a mass, needed is a length/,
  },
  { name: "unknown unit", from: "length: 600", to: "length: §6 furlong", id: "unknown-unit" },
  {
    name: "negative length",
    from: "length: 600",
    to: "length: §-600",
    id: "out-of-range",
    says: /is -600.mm; it must be above 0.mm/,
  },
  { name: "infinite length", from: "length: 600", to: "length: §.inf", id: "not-a-number" },
  {
    name: "decimal comma in a block",
    from: "torque: 0.5 }",
    to: "torque: §'0,5' }",
    id: "decimal-comma",
    says: /read as 0.5/,
  },
  { name: "decimal comma in a flow map", from: "depth: 9", to: "depth: §3,5", id: "decimal-comma" },
  {
    name: "decimal commas in a range of a flow map",
    from: "title: Arm",
    to: "title: Arm\nfits: { diameter: §31,5 to 32,5, load: 1 }",
    id: "decimal-comma",
    says: /is written `31,5 to 32,5`/,
  },
  {
    name: "range that begins with its upper end",
    from: "title: Arm",
    to: "title: Arm\nfits: { diameter: §32.5 to 31.5 }",
    id: "range-reversed",
  },
  { name: "comma that may part thousands", from: "length: 600", to: 'length: §"1,500"', id: "ambiguous-number" },
  { name: "fault inside a short form", from: "12 x 9", to: "12 x §nine", id: "not-a-number" },
  { name: "short form that is none", from: "12 x 9", to: "§12", id: "unreadable-value" },
  { name: "no yes or no", from: "copies: 2", to: "flexible: §maybe", id: "not-yes-or-no" },
  { name: "half a piece", from: "copies: 2", to: "copies: §2.5", id: "not-a-count" },
  { name: "no piece", from: "copies: 2", to: "copies: §0", id: "out-of-range" },
  {
    name: "word that is not on the list",
    from: "torque: 0.5 }",
    to: "surface: §oild }",
    id: "unknown-word",
    says: /write `oiled`/,
  },
  { name: "id 10", from: "  mast:\n    do", to: "  §10:\n    do", id: "bad-id", says: /`10` is no id for a step/ },
  { name: "id 1e3", from: "  mast:\n    do", to: "  §1e3:\n    do", id: "bad-id", says: /`1e3`/ },
  { name: "id with capitals", from: "  hood-hole:", to: "  §HoodHole:", id: "bad-id" },
  { name: "id of JavaScript", from: "  hood-hole:", to: "  §__proto__:", id: "bad-id" },
  {
    name: "duplicate id",
    from: "  hood: {",
    to: "  §plate: {",
    id: "duplicate-key",
    says: /`plate` is written twice/,
  },
  { name: "key without a value", from: "length: 600,", to: "length: §,", id: "value-missing" },
  {
    name: "unknown act",
    from: "trim: clamp",
    to: "§trimm: clamp",
    id: "unknown-act",
    says: /rename `trimm` to `trim`/,
  },
  {
    name: "act without a colon",
    from: "      - feed: lead.plug through hood-hole",
    to: "      - §feed lead.plug through hood-hole",
    id: "act-without-colon",
  },
  { name: "act without a target", from: "trim: clamp", to: "trim: §", id: "value-missing" },
  {
    name: "two acts in one",
    from: "      - feed: lead.plug through hood-hole\n      - ",
    to: "      - feed: lead.plug through hood-hole\n        §",
    id: "several-acts",
  },
  {
    name: "act with words for a name",
    from: "tighten: foot]",
    to: "tighten: §all the screws]",
    id: "unreadable-value",
  },
  {
    name: "both bodies",
    from: "shape: { plate: 80 x 60 x 6 }",
    to: "model: a.stl, §shape: { plate: 80 x 60 x 6 }",
    id: "keys-exclude-each-other",
  },
  { name: "shape that is none", from: "{ plate: 80 x 60 x 6 }", to: "§{ holes: [] }", id: "unknown-kind" },
  { name: "mesh above the kit", from: "shape: { plate: 80 x 60 x 6 }", to: "model: §../a.stl", id: "mesh-outside-kit" },
  {
    name: "mesh of the machine",
    from: "shape: { plate: 80 x 60 x 6 }",
    to: "model: §/etc/a.stl",
    id: "mesh-outside-kit",
  },
  {
    name: "mesh of a drive",
    from: "shape: { plate: 80 x 60 x 6 }",
    to: 'model: §"C:\\\\a.stl"',
    id: "mesh-outside-kit",
  },
  { name: "list for a map", from: "sockets: { power: {} }", to: "sockets: §[power]", id: "wrong-kind-of-value" },
  { name: "map for a text", from: "title: Arm", to: "title: §{ en: Arm }", id: "wrong-kind-of-value" },
  { name: "new in the kit", from: "length: 600,", to: "length: 600, §new: true,", id: "unknown-key" },
  {
    name: "order words in the kit",
    from: "    do: [stick",
    to: "    place-before: §plate\n    do: [stick",
    id: "place-in-kit",
  },
  { name: "broken YAML", from: "lead: { length: 600", to: "lead: §{ length: 600 ]", id: "yaml-syntax" },
]

test.each(cases)("$name", ({ from, to, id, says }) => {
  const { kit, at } = takeMark(change(from, to))
  const { findings } = load(kit)
  expect(brief(findings)).toEqual([`kit.yaml:${at} ${id}`])
  if (says !== undefined)
    expect(findings.map((one) => `${one.message}\n${one.why ?? ""}\n${one.fix ?? ""}`).join("\n")).toMatch(says)
})

test("the kit that the faults are planted in has none", () => {
  expect(brief(load(baseKit).findings)).toEqual([])
})

test("eight independent faults give exactly eight findings", () => {
  let kit = baseKit
  kit = change("title: Arm", "tilte: Arm", kit)
  kit = change("depth: 9", "depth: §deep", kit)
  kit = change("copies: 2", "copies: two", kit)
  kit = change("plug: 12 x 9", "plug: 12 by 9", kit)
  kit = change("in: hood, ", "", kit)
  kit = change("torque: 0.5", "torque: 0.5 kg", kit)
  kit = change("2 x 60 x 20 x 1.5", "2 x 60", kit)
  kit = change("connect: lead.plug to gauge.power", "conect: lead.plug to gauge.power", kit)
  const { value, findings } = load(kit)
  expect(brief(findings)).toEqual([
    "kit.yaml:2:1 unknown-key",
    "kit.yaml:8:49 not-a-number",
    "kit.yaml:12:66 not-a-count",
    "kit.yaml:15:38 unreadable-value",
    "kit.yaml:17:3 missing-key",
    "kit.yaml:19:81 wrong-unit",
    "kit.yaml:23:17 unreadable-value",
    "kit.yaml:33:9 unknown-act",
  ])
  const spec = first(value)
  expect(spec.title).toBe("Arm")
  expect(spec.joints.map((joint) => [joint.id, joint.torqueNm])).toEqual([["foot", undefined]])
  expect(spec.steps.map((step) => step.acts.map((act) => act.verb))).toEqual([
    ["place", "start", "tighten"],
    ["stick", "strap", "trim"],
    ["feed", "connect"],
  ])
})

test("what was left out as faulty keeps its place", () => {
  const spec = first(load(change("in: hood, ", "")).value)
  expect(spec.passages).toEqual([])
  expect(spec.places["passages/hood-hole"]).toMatchObject({ line: 17, column: 3 })
})

test("messages follow the house rules", () => {
  const wrong: string[] = []
  for (const { from, to } of cases) {
    for (const one of load(takeMark(change(from, to)).kit).findings) {
      const isRight =
        one.message.length <= 100 && !/^[A-Z]/.test(one.message) && !one.message.endsWith(".") && one.fix !== undefined
      const words = `${one.message} ${one.why ?? ""} ${one.fix ?? ""}`
      if (
        !isRight ||
        /\b(invalid|illegal|failed|error|unexpected|please|expected|received|undefined|null)\b/i.test(words)
      )
        wrong.push(one.message)
    }
  }
  expect(wrong).toEqual([])
})
