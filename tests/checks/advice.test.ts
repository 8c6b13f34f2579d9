/** What findings about the order advise: the words and that they name the right step. */
import { expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { proveFixture } from "./fixture.ts"

const kernel = await loadKernel()

const head = `
host:
  probe:
    powered: yes
    discharge: 3 min
    sockets: { power: }
    bores: { lid: { thread: M3, in: aluminium, depth: 8 } }
    screwed-in: { lid: { screws: 2 x ISO 4762 M3x8, into: lid } }
    pieces: { lid: { covers: probe.power } }
cables: { lead: { ends: { plug: 8 x 6, inner: fixed } } }
steps:
`
const off = "  off: { do: [isolate: probe, wait: 3 min, verify: probe], text: Off., result: Dark. }\n"
const open = "  open: { do: [unscrew: probe.lid, remove: lid], text: Open., result: Open. }\n"
const plug = "  plug: { do: [connect: lead.plug to probe.power], text: Plug., result: Plugged. }\n"
const shut = "  shut: { do: [place: lid, start: probe.lid, tighten: probe.lid], text: Shut., result: Shut. }\n"
const on = "  on: { do: [restore: probe, inspect: all], text: On., result: Lit. }\n"

function errorsOf(...steps: readonly string[]): readonly string[] {
  return proveFixture(head + steps.join(""), kernel)
    .filter(({ severity }) => severity === "error")
    .map(({ id, fix }) => `${id}: ${(fix ?? "").replaceAll("\u00a0", " ")}`)
}

test("the kit itself has no error", () => expect(errorsOf(off, open, plug, shut, on)).toEqual([]))

test.each([
  ["power left off", [off, open, plug, shut], "goal-not-reached: Write `restore: probe` at the end of step `shut`."],
  [
    "screws left out of the lid",
    [off, open, plug, shut.replace("start: probe.lid, tighten: probe.lid", "inspect: lid"), on],
    "goal-not-reached: Write `start: probe.lid` and `tighten: probe.lid` in step `shut`, behind `place: lid`.",
  ],
  [
    "lid left off with its screws",
    [off, open, plug, on],
    "goal-not-reached: Write `place: lid` at the end of step `plug`.",
  ],
  ["lid and its screws never off", [off, plug, shut, on], "nobody-gives: Write `remove: lid` before this act."],
  [
    "lid thrown away and put back",
    [off, open.replace("remove: lid", "remove: lid, discard: lid"), plug, shut, on],
    "taken-away-before: Remove `discard: lid`: what it throws away is needed again.",
  ],
  [
    "never isolated",
    [off.replace("isolate: probe, wait: 3 min, verify: probe", "inspect: probe"), open, plug, shut, on],
    "live-work-without-isolate: Write `isolate: probe`, `wait: 3 min` and `verify: probe` in a step before it.",
  ],
])("%s is one error", (_, steps, expected) => expect(errorsOf(...steps)).toEqual([expected]))
