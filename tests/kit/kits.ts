/** Kits as text for the tests of this folder: a small one that is right, and changes to it. */

import type { Finding } from "../../src/findings/types.ts"
import { type ReadModel, resolveKit } from "../../src/kit/index.ts"
import type { Kit } from "../../src/kit/types.ts"
import { writeStl } from "../../src/solids/index.ts"
import type { Kernel, Mesh } from "../../src/solids/types.ts"
import { loadSpecs } from "../../src/spec/index.ts"
import type { Spec } from "../../src/spec/types.ts"

/** A sensor on a mast: a unit with two tapped bores, a plate, two clips, a cover, a cable, a tie, a pad. All invented. */
export const sensorArm = `kit: sensor-arm
title: Arm for a wind sensor
invented: yes
supplier: { name: Test bench, address: Nowhere 1, contact: bench@example.invalid }
revision: { id: A, date: 2026-01-31, guide: https://example.invalid/sensor-arm }
intended-use: Holds one [](unit:sensor).
host:
  sensor:
    shape: { box: 80 x 60 x 40, holes: [3.3 at 20, 30, 0 along up depth 10, 3.3 at 60, 30, 0 along up depth 10] }
    at: [0, 0, 6]
    powered: yes
    bores:
      foot: { holes: 3.3 in sensor, thread: M4, in: aluminium, depth: 9 }
    screwed-in: { foot: 2 x ISO 4762 M4x8 }
    sockets: { power: { takes: lead.plug } }
    pieces: { lid: { shape: { box: 20 x 20 x 2 }, at: [30, 20, 46] } }
  mast: { tube: round 32, along: z, length: 200, at: [-30, 30, 0] }
parts:
  plate:
    shape: { plate: 80 x 60 x 6, corner: 5, holes: [4.5 at 20, 30, 4.5 at 60, 30, 2.5 at 10, 10, 2.5 at 70, 10] }
    plastic: PETG
    goes: up
    bag: A
  clip:
    shape: { box: 10 x 10 x 4, holes: [3.4 at 5, 5] }
    copies: { front: { at: [5, 5, 6] }, rear: { at: [65, 5, 6] } }
    material: steel
    bag: A
  cover: { shape: { box: 20 x 20 x 5 }, at: [30, 20, 50], covers: sensor.power, bag: A }
cables:
  lead: { length: 600, ends: { plug: 12 x 9, inner: fixed }, via: [gate] }
passages:
  gate: { in: cover, opening: 14 x 10, closed: yes }
joints:
  foot: { screws: 2 x ISO 4762 M4x14, washer: ISO 7089 M4, through: plate, into: sensor.foot, holes: 4.5 in plate, bag: A }
  clips: { screws: 2 x thread-forming pan 3x10 PZ1, through: clip, into: { holes: 2.5 in plate }, bag: A }
ties:
  hoop: { ties: 2 x 4.8x200, holds: plate, round: mast, bag: A }
pads:
  grip: { pads: 1 x 20 x 20 x 1, on: plate, bag: A }
bags: { A: { name: Bag A } }
hazards:
  live: { source: battery, harm: serious, may: could, avoid: Switch off., at: [off] }
steps:
  off: { do: [isolate: sensor, verify: sensor] }
  mount:
    do: [remove: lid, unscrew: sensor.foot, set-aside: sensor.foot, place: plate, start: foot, tighten: foot]
    text: Start the [](joint:foot) through the [](part:plate).
  clips: { do: [place: clip, start: 2 x clips, tighten: clips], needs-after: { mount: the plate holds them } }
  mast: { do: [stick: grip, strap: hoop, trim: hoop] }
  lead: { do: [feed: lead.plug through gate, connect: lead.plug to sensor.power] }
  close: { do: [place: cover, restore: sensor, inspect: all] }
`

/** Changes a text in one place; a place that is not there is a fault of the test. */
export function changed(text: string, ...changes: readonly (readonly [string, string])[]): string {
  return changes.reduce((before, [from, to]) => {
    if (!before.includes(from)) throw new Error(`no ${from} in the kit`)
    return before.replace(from, to)
  }, text)
}

/** What the kit folder holds as models. */
export function models(files: Readonly<Record<string, Mesh | Uint8Array>>): ReadModel {
  return (file) => {
    const held = files[file]
    if (held === undefined)
      return { problem: { message: `there is no model \`${file}\``, fix: "put it into `models/`" } }
    return { bytes: held instanceof Uint8Array ? held : writeStl(held) }
  }
}

/** Loads and resolves one kit without variants. */
export function resolved(
  kernel: Kernel,
  text: string,
  readModel: ReadModel = models({}),
): { readonly kit: Kit; readonly spec: Spec; readonly findings: readonly Finding[] } {
  const { value, findings } = loadSpecs([{ path: "kit.yaml", bytes: new TextEncoder().encode(text) }])
  const [spec] = value
  if (spec === undefined) throw new Error(findings.map(({ message }) => message).join("\n"))
  const outcome = resolveKit(spec, { kernel, readModel })
  return { kit: outcome.value, spec, findings: [...findings, ...outcome.findings] }
}

/** Findings as `line severity id: message`, with plain spaces. */
export function told(findings: readonly Finding[]): readonly string[] {
  return findings.map(({ where, severity, id, message }) =>
    `${where.line} ${severity} ${id}: ${message}`.replaceAll("\u00a0", " "),
  )
}

/** The line on which a stretch of the text begins. */
export function lineOf(text: string, stretch: string): number {
  const at = text.indexOf(stretch)
  if (at < 0) throw new Error(`no ${stretch} in the kit`)
  return text.slice(0, at).split("\n").length
}
