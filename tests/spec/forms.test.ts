import { expect, test } from "vitest"
import type { Spec } from "../../src/spec/types.ts"
import { baseKit, change } from "./base-kit.ts"
import { brief, first, load } from "./kit.ts"

/** The spec without the places, which differ between short and long. */
function meaningOf(kit: string): unknown {
  const { value, findings } = load(kit)
  expect(brief(findings)).toEqual([])
  const withoutPlaces = (node: unknown): unknown => {
    if (Array.isArray(node)) return node.map(withoutPlaces)
    if (typeof node !== "object" || node === null) return node
    const kept = Object.entries(node).filter(([key]) => !["places", "where", "stretches"].includes(key))
    return Object.fromEntries(kept.map(([key, child]) => [key, withoutPlaces(child)]))
  }
  return withoutPlaces(first(value) satisfies Spec)
}

/** Forms that mean the same; the first is put into the kit in place of `from`. */
test.each<{ readonly from: string; readonly forms: readonly string[] }>([
  {
    from: "screws: 2 x ISO 4762 M4x14",
    forms: [
      "screws: 2 x ISO 4762 M4x14",
      "screws: 2x ISO 4762 M4x14",
      "screws: 2 × ISO 4762 M4x14",
      "screws: { count: 2, of: ISO 4762 M4x14 }",
      "screws: { count: 2 x, of: ISO 4762 M4x14 }",
    ],
  },
  {
    from: "tube: round 32",
    forms: [
      "tube: round 32",
      "tube: round 32mm",
      "tube: { diameter: 3.2 cm }",
      "tube: { kind: round, diameter: 32 }",
      "tube: Round 32",
    ],
  },
  {
    from: "tube: round 32",
    forms: [
      "tube: square 40 x 30 corner 3",
      "tube: { width: 40, height: 30, corner: 3 }",
      "tube: square 40x30 corner 3 mm",
      "tube: rectangular 40 x 30 corner 3",
    ],
  },
  { from: "tube: round 32", forms: ["tube: square 40", "tube: square 40 x 40", "tube: { width: 40 }"] },
  {
    from: "plug: 12 x 9",
    forms: [
      "plug: 12 x 9",
      "plug: 12x9",
      "plug: 12 x 9 mm",
      "plug: 1.2 cm x 0.9 cm",
      "plug: { size: 12 x 9 }",
      "plug: { size: { width: 12, height: 9 } }",
    ],
  },
  {
    from: "plug: 12 x 9",
    forms: ["plug: round 12", "plug: { size: round 12 }", "plug: { size: { diameter: 12 } }", "plug: ø 12"],
  },
  { from: "plug: 12 x 9", forms: ["plug: connected to gauge.power", "plug: { connected: gauge.power }"] },
  {
    from: "plug: 12 x 9",
    forms: ['plug: "12 x 9, connected to gauge.power"', "plug: { size: 12 x 9, connected: gauge.power }"],
  },
  {
    from: "inner: fixed",
    forms: ["inner: fixed", "inner: { fixed: yes }", "inner: { fixed: true }", "inner: { fixed: on }"],
  },
  {
    from: "opening: 14 x 10",
    forms: ["opening: obround 14 x 10", "opening: { kind: obround, width: 14, height: 10 }", "opening: slot 14 x 10"],
  },
  { from: "opening: 14 x 10", forms: ["opening: 14 x 10 corner 2", "opening: { width: 14, height: 10, corner: 2 }"] },
  {
    from: "ties: 4 x 4.8x300",
    forms: [
      "ties: 4 x 4.8x300",
      "ties: 4 x 4.8 x 300",
      "ties: 4x4.8x300",
      "ties: { count: 4, width: 4.8, length: 30 cm }",
    ],
  },
  {
    from: "pads: 2 x 60 x 20 x 1.5",
    forms: [
      "pads: 2 x 60 x 20 x 1.5",
      "pads: { count: 2, size: 60 x 20 x 1.5 }",
      "pads: { count: 2, size: [60, 20, 1.5] }",
    ],
  },
  { from: "through: plate", forms: ["through: plate", "through: [plate]"] },
  {
    from: "date: 2026-01-01",
    forms: ["date: 2028-02-29", "date: 2028-2-29", "date: 2028/02/29", 'date: "2028-02-29"'],
  },
  {
    from: "through: plate",
    forms: ["through: plate, hood", "through: [plate, hood]", "through: 'plate,hood'"].map((one) =>
      one.startsWith("through: plate,") ? 'through: "plate, hood"' : one,
    ),
  },
  { from: "torque: 0.5", forms: ["torque: 0.5", "torque: 0.5 N·m", "torque: 0.5 N m", "torque: 50 Ncm"] },
  {
    from: "into: gauge.foot",
    forms: ["into: { thread: M4, depth: through 6 }", "into: { thread: M4, depth: 6, right-through: yes }"],
  },
  {
    from: "into: gauge.foot",
    forms: ["into: { thread: M4, depth: through }", "into: { thread: M4, right-through: yes }"],
  },
  {
    from: "torque: 0.5",
    forms: ["holes: 4.3 in plate", "holes: { diameter: 4.3, in: plate }", "holes: { diameter: 4.3, in: [plate] }"],
  },
  {
    from: "torque: 0.5",
    forms: [
      "holes: 4.3 in plate and hood along down",
      "holes: { diameter: 4.3, in: [plate, hood], along: down }",
      'holes: "4.3 in [plate, hood] along down"',
    ],
  },
  {
    from: "torque: 0.5",
    forms: [
      "holes: [[10, 20, 5], [40, 20, 5]]",
      "holes: [10, 20, 5, 40, 20, 5]",
      "holes: [{ at: [10, 20, 5] }, { at: [40, 20, 5], along: down }]",
      "holes: [{ at: '10, 20, 5' }, '40, 20, 5 along -z']",
    ],
  },
  {
    from: "torque: 0.5",
    forms: [
      "holes: [10, 20, 5 along up]",
      "holes: ['10, 20, 5 along up']",
      "holes: { at: [10, 20, 5], along: up }",
      "holes: [{ at: [10, 20, 5], along: [0, 0, 2] }]",
    ],
  },
  {
    from: "{ box: 80 x 60 x 20 }",
    forms: [
      "{ box: 80 x 60 x 20, holes: [4.3 at 10, 10, 14 x 10 at 20, 30] }",
      "{ box: [80, 60, 20], holes: ['4.3 at 10, 10', '14 x 10 at 20, 30'] }",
      "{ kind: box, box: 80x60x20, holes: [{ diameter: 4.3, at: [10, 10, 20] }, { size: 14 x 10, at: [20, 30], along: down }] }",
    ],
  },
  {
    from: "{ box: 80 x 60 x 20 }",
    forms: [
      "{ box: 80 x 60 x 20, holes: [4.3 at 0, 10, 6 along right depth 8] }",
      "{ box: 80 x 60 x 20, holes: [{ diameter: 4.3, at: [0, 10, 6], along: x, depth: 8 }] }",
      "{ box: 80 x 60 x 20, holes: round 4.3 at 0, 10, 6 along right depth 8 }".replace(
        "round 4.3 at 0, 10, 6 along right depth 8",
        "'4.3 at 0, 10, 6 along right depth 8'",
      ),
    ],
  },
  { from: "copies: 2", forms: ["copies: 2", "copies: 2 x", "copies: [{}, {}]"] },
  {
    from: "title: Arm\n",
    forms: [
      "title: Arm\nfits: { diameter: 31.5 to 32.5, load: up to 1.2 kg }\n",
      "title: Arm\nfits: { tube: round, diameter: { min: 31.5, max: 32.5 }, load: 1200 g }\n",
      "title: Arm\nfits: { diameter: 31.5 – 32.5 mm, load: 1.2 }\n",
    ],
  },
  {
    from: "title: Arm\n",
    forms: ["title: Arm\ntime: 90 min\ninvented: yes\n", "title: Arm\ntime: 1.5 h\ninvented: true\n"],
  },
  {
    from: "title: Arm\n",
    forms: ["title: Arm\nsupplier: Example Workshop\n", "title: Arm\nsupplier: { name: Example Workshop }\n"],
  },
  {
    from: "title: Arm\n",
    forms: [
      "title: Arm\nbags: { A: Left }\ntools: { rule: Steel rule }\n",
      "title: Arm\nbags: { A: { name: Left } }\ntools: { rule: { name: Steel rule, supplied: no } }\n",
    ],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: [
      "do: [place: plate, start: 1 x foot]",
      "do: [{ place: { what: plate } }, { start: { what: foot, count: 1 } }]",
    ],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: [
      "do: [place: plate.1, place: plate.2]",
      "do: [place: [plate.1, plate.2]]",
      'do: [place: "plate.1, plate.2"]',
      "do: { place: [plate.1, plate.2] }",
    ],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: ["do: [wait: 10 min]", "do: [wait: { time: 10 }]", "do: { wait: 600 s }"],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: ["do: [turn: gauge to back]", "do: [turn: { what: gauge, to: back }]"],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: ["do: [disconnect: lead.plug from gauge.power]", "do: [disconnect: { what: lead.plug, from: gauge.power }]"],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: ["do: [withdraw: lead.plug from hood-hole]", "do: [withdraw: { what: lead.plug, through: hood-hole }]"],
  },
  {
    from: "do: [place: plate, start: foot, tighten: foot]",
    forms: ["do: [inspect: The lamp is green]", "do: [inspect: { for: The lamp is green }]"],
  },
  {
    from: "    text: Tighten the [](joint:foot).",
    forms: [
      "    needs-after: [mast]",
      "    needs-after: mast",
      "    needs-after: { mast: }",
      "    needs-after: [{ step: mast }]",
    ],
  },
  {
    from: "    text: Tighten the [](joint:foot).",
    forms: [
      "    needs-after: { mast: it holds }",
      "    needs-after: [{ mast: it holds }]",
      "    needs-after: { step: mast, why: it holds }",
    ],
  },
  {
    from: "    text: Tighten the [](joint:foot).",
    forms: ["    caution: Sharp.\n    view: front-left-top", "    caution: [Sharp.]\n    view: top left front"],
  },
])("$forms.0 in every form", ({ from, forms }) => {
  const [plain, ...others] = forms
  const meant = meaningOf(change(from, plain ?? ""))
  for (const form of others) expect([form, meaningOf(change(from, form))]).toEqual([form, meant])
  // A form that is passed over would mean the same as the kit without it.
  if (!baseKit.includes(plain ?? "")) expect(meant).not.toEqual(meaningOf(baseKit))
})
