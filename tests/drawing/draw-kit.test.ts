import { beforeAll, expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import type { Proof } from "../../src/document/types.ts"
import { drawKit } from "../../src/drawing/index.ts"
import type { Drawings } from "../../src/drawing/types.ts"
import { stateAt } from "../../src/sequence/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { kitFolders, readKitFiles, readKitModel } from "../guides/kit-files.ts"

const columnMm = 144
const drawn: { proof: Proof; drawings: Drawings; findingCount: number }[] = []

beforeAll(async () => {
  const kernel = await loadKernel()
  for (const folder of kitFolders) {
    const readModel = (file: string): { bytes: Uint8Array } | { problem: { message: string } } => {
      const bytes = readKitModel(folder, file)
      return bytes === undefined ? { problem: { message: `no ${file}` } } : { bytes }
    }
    for (const proof of proveKit(readKitFiles(folder), { kernel, readModel }).proofs) {
      const { value, findings } = drawKit({ ...proof, columnMm })
      drawn.push({ proof, drawings: value, findingCount: findings.length })
    }
  }
})

test("every step that changes what is there has a drawing in which its new things show, in all kits", () => {
  expect(drawn.length).toBeGreaterThan(3)
  for (const { proof, drawings, findingCount } of drawn) {
    expect(findingCount, proof.kit.variant.id).toBe(0)
    for (const state of proof.sequence.steps) {
      const drawing = drawings.steps[state.step]
      const placed = state.placed.filter((id) => proof.kit.instances.find((one) => one.id === id)?.mesh !== undefined)
      const joints = state.jointsStarted.filter(
        (id) => (proof.kit.joints.find((one) => one.id === id)?.points.length ?? 0) > 0,
      )
      if (placed.length + joints.length + state.tiesClosed.length === 0) continue
      expect(drawing, state.step).toBeDefined()
      const shownNew = new Set(drawing?.strokes.filter(({ role }) => role === "new").map(({ of }) => of))
      for (const id of placed) expect([...shownNew], `${state.step}: ${id}`).toContain(id)
      for (const id of joints) {
        expect(
          [...shownNew].some((of) => of?.startsWith(`screw:${id}.`) === true),
          `${state.step}: ${id}`,
        ).toBe(true)
      }
    }
  }
})

test("a drawing shows no piece that is not there yet or already gone", () => {
  for (const { proof, drawings } of drawn) {
    const { kit, sequence } = proof
    for (const [index, { step }] of sequence.steps.entries()) {
      const drawing = drawings.steps[step]
      const state = stateAt(sequence, index)
      if (drawing === undefined || state === undefined) continue
      const passages = new Set(state.cables.flatMap((cable) => cable.passages))
      // Parts that hang on a cable, and parts on the table that pads are stuck to, are at hand but not in place.
      const atHand = [
        ...kit.passages.filter(({ id }) => passages.has(id)).map(({ part }) => part),
        ...kit.pads.filter(({ id }) => state.padsStuck.includes(id)).map(({ on }) => on),
      ]
      const there = new Set([...state.presentBefore, ...state.placed, ...state.removed])
      for (const instance of kit.instances) {
        const isDrawn = drawing.strokes.some(({ of }) => of === instance.id)
        if (!isDrawn || atHand.includes(instance.of)) continue
        expect(there.has(instance.id) || instance.owner === "pad", `${state.step}: ${instance.id}`).toBe(true)
      }
    }
  }
})

test("references are those of the parts list, their counts those of the step", () => {
  for (const { proof, drawings } of drawn) {
    const { kit, sequence } = proof
    for (const state of sequence.steps) {
      for (const { itemReference, count, of } of drawings.steps[state.step]?.references ?? []) {
        const part = kit.parts.find((one) => one.itemReference === itemReference)
        const joints = kit.joints.filter((one) => one.itemReference === itemReference)
        if (part !== undefined) {
          expect(count).toBe([...state.placed, ...state.removed].filter((id) => part.instances.includes(id)).length)
          expect(part.instances).toContain(of)
        } else if (joints.length > 0) {
          const own = joints.filter(({ id }) => state.jointsStarted.includes(id) || state.jointsTightened.includes(id))
          expect(count).toBe(own.reduce((sum, joint) => sum + joint.points.length, 0))
        }
      }
    }
  }
})

test("step drawings fit the column, the finished view fits beside text, life-size views are at 1:1", () => {
  for (const { proof, drawings } of drawn) {
    for (const drawing of Object.values(drawings.steps)) {
      expect(drawing.widthMm, drawing.id).toBeLessThanOrEqual(columnMm)
      expect(drawing.heightMm, drawing.id).toBeLessThanOrEqual(95)
    }
    expect(drawings.overview.widthMm).toBeLessThanOrEqual(88)
    expect(drawings.overview.heightMm).toBeLessThanOrEqual(70)
    for (const box of proof.fit.box) {
      if (box.kind === "fastener" || box.kind === "tie") expect(drawings.items[box.item]?.scale, box.item).toBe(1)
    }
  }
})

test("the scale under a life-size screw is as long as the screw", () => {
  for (const { proof, drawings } of drawn) {
    for (const { item, fastener } of proof.fit.box) {
      if (fastener?.kind !== "screw" || fastener.lengthMm === undefined) continue
      const bars = (drawings.items[item]?.strokes ?? []).filter(({ role }) => role === "dimension")
      const widest = Math.max(...bars.map(({ points }) => Math.abs((points[2] ?? 0) - (points[0] ?? 0))))
      expect(widest, item).toBeCloseTo(fastener.lengthMm, 6)
    }
  }
})

test("drawings survive structuredClone", () => {
  for (const { drawings } of drawn) expect(structuredClone(drawings)).toEqual(drawings)
})
