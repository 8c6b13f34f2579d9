import { expect, test } from "vitest"
import { proofOf } from "./proof-of.ts"

const text = `
host:
  gauge: { bores: { foot: { thread: M4, in: aluminium, depth: 20 } }, screwed-in: { foot: 2 x ISO 4017 M4x8 }, sockets: { power: {} } }
  mast: { tube: round 32 }
parts:
  plate: { shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15, 4.5 at 30, 15] }, plastic: PETG, spare: 1, bag: a }
  strip: { shape: { plate: 40 x 30 x 6, holes: [4.5 at 10, 15] }, plastic: PETG, at: [0, 0, 60], copies: 2 }
cables:
  lead: { ends: { plug: 12 x 9, tail: round 6 }, supplied: yes, bag: b }
joints:
  foot: { screws: 2 x ISO 4762 M4x14, through: plate, into: gauge.foot, holes: 4.5 in plate, bag: a, spare: 1, washer: ISO 7089 M4 }
  top: { screws: 1 x ISO 4762 M4x16, through: strip, nut: ISO 4032 M4, holes: [{ at: [10, 15, 66], along: down }], bag: a }
  end: { screws: 1 x ISO 4762 M4x14, through: strip, nut: ISO 4032 M4, holes: [{ at: [10, 15, 66], along: down }], bag: b }
ties:
  clamp: { ties: 3 x 4.8x300, holds: plate, round: mast, spare: 2 }
bags:
  a: { name: First bag }
  b: { name: Second bag }
tools:
  rule: Steel rule
steps:
  fit:
    do: [unscrew: gauge.foot, set-aside: gauge.foot, place: plate, start: foot, tighten: foot, place: strip, start: top, tighten: top, start: end, tighten: end, strap: clamp, trim: clamp, connect: lead.plug to gauge.power]
    tools: [rule]
`
const { fit } = proofOf(text)

test("the box: joints x screws + spares by bag, washers and nuts too, and all else", () => {
  expect(fit.box.map(({ item, count, spare, bag }) => `${item} ${count}+${spare} ${bag ?? "loose"}`).sort()).toEqual([
    "cable:lead 1+0 b",
    "fastener:ISO 4032 - M4 1+0 a",
    "fastener:ISO 4032 - M4 1+0 b",
    "fastener:ISO 4762 - M4 x 14 1+0 b",
    "fastener:ISO 4762 - M4 x 14 2+1 a",
    "fastener:ISO 4762 - M4 x 16 1+0 a",
    "fastener:ISO 7089 - 4 2+1 a",
    "part:plate 1+1 a",
    "part:strip 2+0 loose",
    "tie:clamp 3+2 loose",
  ])
})

test("look-alikes: 14 and 16 mm of one thread, once", () => {
  expect(fit.lookAlikes).toEqual([
    { one: "fastener:ISO 4762 - M4 x 14", other: "fastener:ISO 4762 - M4 x 16", difference: "lengths differ by 2 mm" },
  ])
})

test("tools: keys and wrenches by size, one torque driver for all, cutters where ties are trimmed, declared ones", () => {
  const tools = fit.tools.map(({ id, uses }) => `${id}: ${uses.join(" ")}`)
  expect(tools).toEqual([
    "hex-key-3: foot top end",
    "hex-wrench-7: top end gauge.foot",
    "torque-driver: foot top end",
    "side-cutters: clamp",
    "rule: fit",
  ])
  const values = fit.joints.flatMap(({ torque }) => torque.valueNm ?? [])
  expect(fit.tools.find(({ id }) => id === "torque-driver")?.torqueNm).toEqual({
    min: Math.min(...values),
    max: Math.max(...values),
  })
})

test("the fit is plain data", () => {
  expect(structuredClone(fit)).toEqual(fit)
})
