/** Known kinds of mistakes of makers, each planted in the demo kit: the rule that must tell it, and the line. */
import { expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { readKitFiles, readKitModel } from "./kit-files.ts"

const folder = "guides/pump-cradle"
const kernel = await loadKernel()
const text = new TextDecoder().decode(readKitFiles(folder)[0]?.bytes)

/** Each finding as its rule and the line of the kit that it points at. */
function prove(kit: string): readonly string[] {
  const readModel = (file: string) => {
    const bytes = readKitModel(folder, file)
    return bytes === undefined ? { problem: { message: `no model \`${file}\`` } } : { bytes: new Uint8Array(bytes) }
  }
  const { findings } = proveKit([{ path: "kit.yaml", bytes: new TextEncoder().encode(kit) }], { kernel, readModel })
  return findings.map(({ id, where }) => `${id}: ${(kit.split("\n")[where.line - 1] ?? "").trim()}`)
}

function replace(kit: string, from: string, to: string): string {
  if (!kit.includes(from)) throw new Error(`the kit has no ${from}`)
  return kit.replace(from, () => to)
}
const change = (from: string, to: string) => replace(text, from, to)
const line = (act: string): string => `      - ${act}\n`
const without = (act: string) => change(line(act), "")
const behind = (act: string, other: string) => replace(without(act), line(other), line(other) + line(act))
const also = (act: string, other: string) => change(line(other), line(other) + line(act))

const pick = (id: string): string =>
  new RegExp(`^  ${id}:\\n(?:    .*\\n)*`, "m").exec(text.slice(text.indexOf("\nsteps:")))?.[0] ?? "?"
const stepBefore = (id: string, other: string) =>
  replace(change(pick(id), ""), `  ${other}:\n`, `${pick(id)}  ${other}:\n`)

const cases: readonly (readonly [string, string, readonly string[]])[] = [
  [
    "a saddle is tied before it is screwed on",
    stepBefore("hang-up", "foot-right"),
    ["needs-something-later: - strap: hoop"],
  ],
  [
    "the hood closes before a lead is plugged in",
    stepBefore("close-up", "run-sun-lead"),
    ["taken-away-before: - connect: sun-lead.head to pump-driver.panel"],
  ],
  [
    "a lead is plugged in before it is fed",
    behind("feed: well-lead.plug through cable-gate", "connect: well-lead.plug to pump-driver.pump"),
    ["needs-something-later: - connect: well-lead.plug to pump-driver.pump"],
  ],
  [
    "an end is larger than the opening",
    change("plug: { size: 14 x 9", "plug: { size: 24 x 13"),
    ["connector-does-not-pass: - feed: well-lead.plug through cable-gate"],
  ],
  [
    "a part comes after its screws",
    behind("place: tube-saddle.left", "start: left-foot"),
    ["needs-something-later: - start: left-foot"],
  ],
  [
    "screws are tightened before they are started",
    behind("start: hood-ears", "tighten: hood-ears"),
    ["needs-something-later: - tighten: hood-ears"],
  ],
  [
    "a pad comes after its part",
    stepBefore("foot-left", "pad-up"),
    ["needs-something-later: - place: tube-saddle.left"],
  ],
  [
    "a surface is cleaned under the pad",
    behind("clean: tube-saddle", "stick: grip-pad"),
    ["needs-something-later: - stick: grip-pad"],
  ],
  [
    "the power is never taken off",
    change("[isolate: pump-driver, verify: pump-driver]", "[verify: pump-driver]"),
    ["live-work-without-isolate: - unscrew: pump-driver.left"],
  ],
  [
    "the power is taken off too late",
    stepBefore("dress-left", "make-dead"),
    ["needs-something-later: - unscrew: pump-driver.left"],
  ],
  [
    "the power comes back before the hood is on",
    stepBefore("go-live", "close-up"),
    ["needs-something-later: do: [restore: pump-driver, inspect: all]"],
  ],
  [
    "the power never comes back",
    change("[restore: pump-driver, inspect: all]", "[inspect: all]"),
    ["goal-not-reached: do: [isolate: pump-driver, verify: pump-driver]"],
  ],
  [
    "nobody looks at the work",
    change("[restore: pump-driver, inspect: all]", "[restore: pump-driver]"),
    ["restored-without-inspection: do: [restore: pump-driver]"],
  ],
  [
    "the inspection comes too early",
    replace(
      change("[restore: pump-driver, inspect: all]", "[restore: pump-driver]"),
      line("tighten: hood-ears"),
      line("inspect: all") + line("tighten: hood-ears"),
    ),
    ["needs-something-later: - inspect: all"],
  ],
  [
    "the work is turned with a loose part on it",
    also("turn: all to back", "place: tube-saddle.left"),
    ["needs-something-later: - turn: all to back"],
  ],
  [
    "own screws are kept that were not taken out",
    without("unscrew: pump-driver.right"),
    ["nobody-gives: - set-aside: pump-driver.right"],
  ],
  [
    "own screws lie about",
    without("set-aside: pump-driver.right"),
    ["own-screws-unaccounted: - unscrew: pump-driver.right"],
  ],
  [
    "a part is placed twice",
    also("place: cheek-left", "place: cheek-left"),
    ["taken-away-before: - place: cheek-left"],
  ],
  [
    "screws are in the box and in no step",
    replace(without("start: left-foot"), line("tighten: left-foot"), ""),
    ["item-never-used: left-foot: # grip 8 + 1 washer, 9 in plastic (2.25 d) of 16"],
  ],
  ["screws stay loose", without("tighten: right-foot"), ["goal-not-reached: - start: right-foot"]],
  ["more ties than the box has", change("- strap: hoop", "- strap: 6 x hoop"), ["supplied-too-few: - strap: 6 x hoop"]],
  ["a tie is left over", change("- strap: hoop", "- strap: 3 x hoop"), ["supplied-too-many: - strap: 3 x hoop"]],
  [
    "a count differs from the joint",
    change("- start: hood-ears", "- start: 3 x hood-ears"),
    ["count-differs-from-joint: - start: 3 x hood-ears"],
  ],
  [
    "a count differs from the holes",
    change("3 x ISO 4762 M4x14", "4 x ISO 4762 M4x14"),
    ["hole-count-differs: screws: 4 x ISO 4762 M4x14"],
  ],
  [
    "a screw is too short",
    change("2 x ISO 4762 M4x16", "2 x ISO 4762 M4x12"),
    ["screw-too-short: screws: 2 x ISO 4762 M4x12"],
  ],
  [
    "a screw is too long",
    change("2 x ISO 4762 M4x16", "2 x ISO 4762 M4x25"),
    ["screw-bottoms-out: screws: 2 x ISO 4762 M4x25"],
  ],
  ["a torque is ten times too high", change("torque: 0.9\n", "torque: 9\n"), ["torque-strips-thread: torque: 9"]],
  [
    "a torque is ten times too low",
    change("torque: 0.9\n", "torque: 0.09\n"),
    ["torque-far-below-limit: torque: 0.09"],
  ],
  [
    "a torque has the wrong unit",
    change("torque: 0.9\n", "torque: 0.9 lbf in\n"),
    ["torque-far-below-limit: torque: 0.9 lbf in"],
  ],
  [
    "a text says another torque",
    change("Then tighten them to [](torque:left-top)", "Then tighten them to 9 N·m"),
    ["typed-number-differs: each with its washer. Then tighten them to 9 N·m."],
  ],
  [
    "a tool has no use",
    change("tools: { soft-pencil: Soft pencil }", "tools: { soft-pencil: Soft pencil, rule: Steel rule }"),
    ["tool-never-used: tools: { soft-pencil: Soft pencil, rule: Steel rule }"],
  ],
  [
    "a tool is named that is not declared",
    change("(tool:soft-pencil)", "(tool:marker)"),
    [
      "unknown-reference: Mark the middle of the place on the tube with the [](tool:marker). Wipe the tube where the saddles will sit. Set the cradle on the tube from above. Push each [](tie:hoop) through a",
    ],
  ],
  ["a tie is closed a second time", also("strap: hoop", "trim: hoop"), ["taken-away-before: - strap: hoop"]],
  [
    "an end goes to another socket",
    change("connect: sun-lead.head to pump-driver.panel", "connect: sun-lead.head to pump-driver.pump"),
    ["end-in-wrong-socket: - connect: sun-lead.head to pump-driver.pump"],
  ],
  ["a tie is too short", change("4 x 4.8x250", "4 x 4.8x200"), ["tie-too-short: ties: 4 x 4.8x200"]],
  ["a name is nothing's", change("- start: hood-ears", "- start: hood-eers"), ["unknown-name: - start: hood-eers"]],
  ["a step stands there twice", `${text}  go-live:\n    do: [inspect: all]\n`, ["duplicate-key: go-live:"]],
  [
    "a step waits for itself",
    change("  pad-up:\n", "  pad-up:\n    needs-after: pad-up\n"),
    ["order-is-circular: needs-after: pad-up"],
  ],
]

test("the kit as it stands is silent", () => expect(prove(text)).toEqual([]))

test.each(cases)("%s", (_, kit, expected) => expect(prove(kit)).toEqual(expected))
