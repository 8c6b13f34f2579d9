/** Hashes of what the maker wrote, free of where it stands: a comment or another line changes none of them. */
import { createHash } from "node:crypto"
import type { Kit } from "../kit/types.ts"

/** Keys that tell where a value was written, and the meshes, which their own keys stand for. */
const leftOut: ReadonlySet<string> = new Set(["path", "places", "where", "stretches", "position", "meshes"])

/** SHA-256 in hexadecimal letters. */
export function hashBytes(bytes: Uint8Array | string): string {
  return createHash("sha256").update(bytes).digest("hex")
}

/** SHA-256 of plain data without its places. Equal data written elsewhere gives an equal hash. */
function hashContent(value: unknown): string {
  return hashBytes(
    JSON.stringify(value, (key, inner: unknown) => (leftOut.has(key) ? undefined : inner)) ?? "undefined",
  )
}

/** SHA-256 of all that a variant is: things, counts, texts, meshes. The revision itself stays out. */
export function hashKit(kit: Kit): string {
  const { revision: _, ...identity } = kit.identity
  return hashContent({ ...kit, identity, meshKeys: Object.keys(kit.meshes).sort() })
}

/** SHA-256 of each part, each text and each fastener, keyed `part:plate`, `text:plate`, `joint:foot` and so on. */
export function hashThings(kit: Kit): Readonly<Record<string, string>> {
  const pieces = new Map<string, (typeof kit.instances)[number][]>()
  for (const piece of kit.instances) pieces.set(piece.of, [...(pieces.get(piece.of) ?? []), piece])
  const kinds = {
    part: kit.parts.map((part) => ({ ...part, pieces: pieces.get(part.id) })),
    unit: kit.units.map((unit) => ({ ...unit, pieces: pieces.get(unit.id) })),
    frame: kit.frames,
    assembly: kit.assemblies,
    joint: kit.joints,
    tie: kit.ties,
    pad: kit.pads,
    cable: kit.cables,
    passage: kit.passages,
    hazard: kit.hazards,
    step: kit.steps.map(({ text: _, result: __, caution: ___, ...step }) => step),
    text: kit.steps.flatMap(({ id, text, result, caution }) =>
      [text, result, ...caution].some((one) => one !== undefined)
        ? [{ id, texts: [text, result, ...caution].map((one) => one?.source.text) }]
        : [],
    ),
  }
  return Object.fromEntries(
    Object.entries(kinds).flatMap(([kind, things]) =>
      things.map((thing) => [`${kind}:${thing.id}`, hashContent(thing)] as const),
    ),
  )
}
