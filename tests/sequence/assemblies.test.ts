import { describe, expect, test } from "vitest"
import { loadKernel } from "../../src/solids/index.ts"
import { resolved } from "../kit/kits.ts"
import type { Small } from "./small-kit.ts"
import { check, prove } from "./told.ts"

const kernel = await loadKernel()

function steps(...lists: readonly (readonly string[])[]): Small["steps"] {
  return lists.map((acts, index) => ({ id: String.fromCharCode(97 + index), acts }))
}

const cradle = {
  units: [{ id: "gauge" }],
  parts: [{ id: "cheek" }, { id: "saddle" }, { id: "hood", holdsItself: true }],
  joints: [
    { id: "top", through: ["cheek"], owner: "gauge" },
    { id: "foot", through: ["cheek"], owner: "saddle" },
    { id: "ears", through: ["hood"], owner: "cheek" },
  ],
  ties: [{ id: "hoop", holds: ["saddle"], frame: "rail" }],
  assemblies: [{ id: "cradle", of: ["gauge", "cheek", "saddle"] }],
} satisfies Omit<Small, "steps">
const bench = ["place: cheek", "start: top", "tighten: top", "place: saddle", "start: foot", "tighten: foot"]
const [place, strap, hood] = [["place: cradle"], ["strap: hoop"], ["place: hood", "start: ears", "tighten: ears"]]

describe("a group of pieces that is placed as one", () => {
  test("joined on the bench, placed, tied, covered", () =>
    check({ ...cradle, steps: steps(bench, place, strap, hood) }, []))
  test("a tie round the frame before it is placed", () =>
    check({ ...cradle, steps: steps(bench, strap, place, hood) }, [
      "b closes tie `hoop` before c places `cradle` [on:cradle]",
    ]))
  test("a joint to what is outside before it is placed", () =>
    check({ ...cradle, steps: steps(bench, hood, place, strap) }, [
      "b starts joint `ears` before c places `cradle` [on:cradle]",
    ]))
  test("placed before a piece of it is there", () =>
    check({ ...cradle, steps: steps(bench.slice(0, 3), place, [...bench.slice(3)], strap, hood) }, [
      "b places `cradle` before c places `saddle` [on:saddle]",
    ]))
  test("placed while a piece of it is loose", () =>
    check({ ...cradle, steps: steps(bench.slice(0, 5), place, bench.slice(5), strap, hood) }, [
      "b places `cradle` before c tightens joint `foot` [held:saddle]",
    ]))
  test("never placed: what waits for it is told with it", () =>
    check({ ...cradle, steps: steps(bench, strap, hood) }, ["goal on:cradle last -"]))
  test("placed twice", () =>
    check({ ...cradle, steps: steps(bench, place, place, strap, hood) }, [
      "c places `cradle` after b places `cradle` [off:cradle]",
    ]))
  test("a piece that only the tie round the frame holds is not asked to be held before", () =>
    check(
      {
        ...cradle,
        joints: [{ id: "top", through: ["cheek"], owner: "gauge" }],
        steps: steps(["place: cheek", "start: top", "tighten: top", "place: saddle"], place, strap, ["place: hood"]),
      },
      [],
    ))
  test("taken off again: ties and outer joints first, and then it is missed at the end", () => {
    const off = ["unscrew: ears", "remove: hood", "remove: hoop", "remove: cradle", "set-aside: hood"]
    check({ ...cradle, steps: steps(bench, place, strap, hood, ["remove: cradle"]) }, [
      "e removes `cradle` after c closes tie `hoop` [untied:hoop]",
      "goal on:cradle last e",
    ])
    check({ ...cradle, steps: steps(bench, place, strap, hood, off, place, strap) }, ["goal tight:ears last e"])
  })
  test("the way back: ties, then the whole, then what joins its pieces", () => {
    const { removal } = prove({ ...cradle, steps: steps(bench, place, strap, hood) })
    const acts = removal.acts.map(({ verb, target }) => `${verb} ${target}`)
    const order = ["remove hoop", "remove cradle", "unscrew top"].map((act) => acts.indexOf(act))
    expect(order.every((at) => at >= 0)).toBe(true)
    expect(order).toEqual([...order].sort((one, other) => one - other))
  })
  test("its pieces stay in place, and no step places them again", () => {
    const { steps: states } = prove({ ...cradle, steps: steps(bench, place, strap, hood) })
    expect(states.map(({ placed, assembliesPlaced }) => [placed, assembliesPlaced])[1]).toEqual([[], ["cradle"]])
  })
})

describe("written in a spec", () => {
  const text = `kit: small
title: Small
revision: { id: A, date: 2026-01-01 }
host:
  gauge: { mass: 0.3 kg }
parts:
  cheek: { copies: 2 }
  plate: {}
assemblies:
  cradle: { name: Cradle, of: [gauge, cheek, plate.1], goes: down }
steps:
  one:
    do: [place: cheek, place: plate, place: cradle, turn: cradle to back, inspect: cradle]
`
  test("names of parts stand for all copies", () => {
    const { kit, findings } = resolved(kernel, text)
    expect(kit.assemblies).toEqual([
      {
        id: "cradle",
        path: "assemblies/cradle",
        name: "Cradle",
        of: ["gauge", "cheek", "plate"],
        instances: ["gauge", "cheek.1", "cheek.2", "plate"],
        goes: [0, 0, -1],
      },
    ])
    expect(kit.steps[0]?.acts.map(({ verb, target, instances }) => [verb, target, instances.length])).toEqual([
      ["place", "cheek", 2],
      ["place", "plate", 1],
      ["place", "cradle", 0],
      ["turn", "cradle", 0],
      ["inspect", "cradle", 0],
    ])
    expect(findings.map(({ id }) => id)).toEqual([])
  })
  test("a piece that nothing is called", () => {
    const { kit, findings } = resolved(kernel, text.replace("plate.1]", "plat]"))
    expect(findings.map(({ id, message }) => [id, message])).toEqual([
      ["unknown-name", "assembly `cradle` names `plat`, which nothing is called"],
    ])
    expect(kit.assemblies[0]?.of).toEqual(["gauge", "cheek"])
  })
  test("a single piece", () => {
    const { findings } = resolved(kernel, text.replace("[gauge, cheek, plate.1]", "gauge"))
    expect(findings.map(({ id, message }) => [id, message])).toEqual([
      ["assembly-of-one-piece", "assembly `cradle` has one piece, `gauge`"],
    ])
  })
})
