/** Brings a kit written in a test through the stages up to its fit. */
import { proveKit } from "../../src/build/prove.ts"
import type { Proof } from "../../src/document/types.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { splitFixture } from "../checks/fixture.ts"

const kernel = await loadKernel()

/** The proof of the first variant of a kit text; throws when the text does not give a kit. */
export function proofOf(text: string): Proof {
  const encoder = new TextEncoder()
  const files = splitFixture(text).map(({ path, text: content }) => ({ path, bytes: encoder.encode(content) }))
  const readModel = () => {
    throw new Error("kits of these tests have shapes, no models")
  }
  const [proof] = proveKit(files, { kernel, readModel }).proofs
  if (proof === undefined) throw new Error("no kit came out of the text")
  return proof
}
