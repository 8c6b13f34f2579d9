import { existsSync, readdirSync, readFileSync } from "node:fs"
import { describe, expect, test } from "vitest"
import { proveKit } from "../../src/build/prove.ts"
import { runChecks } from "../../src/checks/registry.ts"
import type { Proof } from "../../src/document/types.ts"
import type { Finding } from "../../src/findings/types.ts"
import type { Step } from "../../src/kit/types.ts"
import { proveSequence } from "../../src/sequence/index.ts"
import { loadKernel } from "../../src/solids/index.ts"
import type { Verb } from "../../src/spec/types.ts"

const kernel = await loadKernel()
const root = new URL("../..", import.meta.url).pathname

/** Proofs of all variants of a kit folder. */
function proveFolder(folder: string): readonly Proof[] {
  const variants = existsSync(`${folder}/variants`) ? readdirSync(`${folder}/variants`).sort() : []
  const files = ["kit.yaml", ...variants.filter((file) => file.endsWith(".yaml")).map((file) => `variants/${file}`)]
  const readModel = (file: string) => ({ bytes: new Uint8Array(readFileSync(`${folder}/models/${file}`)) })
  return proveKit(
    files.map((path) => ({ path, bytes: new Uint8Array(readFileSync(`${folder}/${path}`)) })),
    { kernel, readModel },
  ).proofs
}

/** Findings of the same kit with other steps; what is left out was never written, so it has no place either. */
function judge({ kit, fit }: Proof, steps: readonly Step[]): readonly Finding[] {
  const kept = new Set(steps.flatMap(({ acts }) => acts.map(({ path }) => path)))
  const isKept = (key: string): boolean => {
    const act = /^steps\/[^/]+\/do\/\d+/.exec(key)?.[0]
    return act === undefined || kept.has(act)
  }
  const places = Object.fromEntries(Object.entries(kit.places).filter(([key]) => isKept(key)))
  const changed = { ...kit, steps, places }
  return runChecks({ kit: changed, fit, sequence: proveSequence(changed, fit) })
}

/** Acts that no other act and no goal asks for. */
const unasked: ReadonlySet<Verb> = new Set(["inspect", "wait", "clean", "trim", "verify", "turn"])

const proofs = ["guides/pump-cradle", "tests/guides/rain-gauge-arm", "tests/guides/post-lamp"].flatMap((folder) =>
  proveFolder(root + folder).map((proof) => ({ name: `${folder} ${proof.kit.variant.id}`, proof })),
)

/** Does what a finding advises: moves one step, or swaps two. */
function applyAdvice(steps: readonly Step[], fix: string): readonly Step[] {
  const swap = /^Swap steps `(.+)` and `(.+)`\.$/.exec(fix)
  const byId = (id: string | undefined): Step | undefined => steps.find((step) => step.id === id)
  if (swap !== null) {
    const [one, other] = [byId(swap[1]), byId(swap[2])]
    return steps.map((step) => (step === one ? (other ?? step) : step === other ? (one ?? step) : step))
  }
  const move = /^Move step `(.+)` (before|behind) step `(.+)`\.$/.exec(fix)
  const step = byId(move?.[1])
  if (move === null || step === undefined) return steps
  return steps
    .filter((one) => one !== step)
    .flatMap((one) => (one.id !== move[3] ? [one] : move[2] === "before" ? [step, one] : [one, step]))
}

describe.each(proofs)("$name", ({ proof }) => {
  const { kit, sequence } = proof
  const before = judge(proof, kit.steps)
  const known = new Set(before.map(({ id, message }) => `${id} ${message}`))
  const newErrors = (steps: readonly Step[]): readonly Finding[] =>
    judge(proof, steps).filter(({ id, message, severity }) => severity === "error" && !known.has(`${id} ${message}`))

  test("is in a valid order", () => expect(sequence.faults).toEqual([]))

  test("a step left out is seen", () => {
    const needed = kit.steps.filter(({ acts }) => acts.some(({ verb }) => !unasked.has(verb)))
    const unseen = needed.filter((step) => newErrors(kit.steps.filter((one) => one !== step)).length === 0)
    expect(unseen.map(({ id }) => id)).toEqual([])
    expect(needed.length).toBeGreaterThan(0)
  })

  test("an act left out is seen", () => {
    const unseen = kit.steps.flatMap((step) =>
      step.acts
        .filter(({ verb }) => !unasked.has(verb))
        .filter((act) => {
          const acts = step.acts.filter((one) => one !== act)
          return newErrors(kit.steps.map((one) => (one === step ? { ...step, acts } : one))).length === 0
        })
        .map(({ path, verb }) => `${path} ${verb}`),
    )
    expect(unseen).toEqual([])
  })

  test("two swapped steps give one finding that names both, when one needs the other", () => {
    const wrong: string[] = []
    kit.steps.forEach((one, index) => {
      kit.steps.slice(index + 1).forEach((other) => {
        if (!sequence.links.some(({ from, to }) => from === one.id && to === other.id)) return
        const found = newErrors(kit.steps.map((step) => (step === one ? other : step === other ? one : step)))
        const [first] = found
        const isRight =
          found.length === 1 &&
          first !== undefined &&
          [one.id, other.id].every((id) => first.message.includes(`\`${id}\``) || first.subjects.includes(id))
        const isOnLine = first !== undefined && /^steps\//.test(first.where.path.join("/"))
        if (!isRight || !isOnLine)
          wrong.push(`${one.id} and ${other.id}: ${found.map(({ message }) => message).join("; ")}`)
      })
    })
    expect(wrong).toEqual([])
  })

  test("the advice mends a swap, a step moved to the front, and one moved to the end", () => {
    const wrong: string[] = []
    const moved = kit.steps.flatMap((step, index) => {
      const rest = kit.steps.filter((one) => one !== step)
      const swaps = kit.steps
        .slice(index + 1)
        .map((other) => kit.steps.map((one) => (one === step ? other : one === other ? step : one)))
      return [[step, ...rest], [...rest, step], ...swaps]
    })
    let tried = 0
    for (const steps of moved) {
      const found = newErrors(steps)
      if (found.length !== 1) continue
      tried += 1
      const left = newErrors(applyAdvice(steps, found[0]?.fix ?? ""))
      if (left.length > 0)
        wrong.push(`${found[0]?.message}: ${found[0]?.fix} leaves ${left.map(({ message }) => message).join("; ")}`)
    }
    expect(wrong).toEqual([])
    expect(tried).toBeGreaterThan(0)
  })

  test("an act done twice is seen", () => {
    const twice = kit.steps.flatMap((step) =>
      step.acts
        .filter(({ verb }) =>
          ["place", "start", "connect", "feed", "strap", "stick", "isolate", "unscrew"].includes(verb),
        )
        .map((act) => ({ step, act })),
    )
    const unseen = twice.filter(({ step, act }) => {
      const acts = [...step.acts, { ...act, path: `${act.path}-again` }]
      return newErrors(kit.steps.map((one) => (one === step ? { ...step, acts } : one))).length === 0
    })
    expect(unseen.map(({ act }) => `${act.path} ${act.verb}`)).toEqual([])
  })
})
