/** Names of things as documents print them. A thing is looked up by kind and id: things of different kinds may share an id. */
import { actsOn } from "../kit/acts.ts"
import type { NameKind } from "../kit/names.ts"
import type { Act, CableEnd, Part } from "../kit/types.ts"
import type { Context } from "./context.ts"

/** A thing's name as its author wrote it, with its item reference when the box holds it. */
export type Named = { readonly name: string; readonly reference: number | undefined }

/** A part, a copy of one, or what the buyer has: what a pad sticks to, a screw goes through or a bore is in. */
export const pieceKinds = ["part", "instance", "unit", "frame"] as const satisfies readonly NameKind[]

/** Finds the name of a thing of the first kind that has one of that id; the id itself when none has. */
export function findName(context: Context, id: string, kinds: readonly NameKind[]): Named {
  for (const kind of kinds) {
    const named = findOfKind(context, kind, id)
    if (named !== undefined) return named
  }
  return { name: id, reference: undefined }
}

function findOfKind(context: Context, kind: NameKind, id: string): Named | undefined {
  const { kit, words } = context
  const has = (thing: { readonly id: string }): boolean => thing.id === id
  const plain = (thing: { readonly name: string } | undefined): Named | undefined =>
    thing === undefined ? undefined : { name: thing.name, reference: undefined }
  switch (kind) {
    case "part": {
      const part = kit.parts.find(has)
      return part === undefined ? undefined : namePart(part)
    }
    case "instance": {
      const piece = kit.instances.find(has)
      return piece === undefined || piece.of === id ? undefined : findOfKind(context, piece.owner, piece.of)
    }
    case "tie":
      return nameItem(kit.ties.find(has))
    case "pad":
      return nameItem(kit.pads.find(has))
    case "cable":
      return nameItem(kit.cables.find(has))
    case "joint":
      return nameItem(kit.joints.find(has))
    case "end": {
      const cable = kit.cables.find(({ ends }) => ends.some(has))
      const end = cable?.ends.find(has)
      if (cable === undefined || end === undefined) return undefined
      return isOnlyEndCalled(context, end)
        ? plain(end)
        : plain({ name: words.endOf(end.name, words.nameInSentence(cable.name, isOwnLanguage(context))) })
    }
    case "assembly":
      return plain(kit.assemblies.find(has))
    case "unit":
      return plain(kit.units.find(has))
    case "frame":
      return plain(kit.frames.find(has))
    case "socket":
      return plain(kit.sockets.find(has))
    case "passage":
      return plain(kit.passages.find(has))
    case "bag":
      return plain(kit.bags.find(has))
    case "tool":
      return plain(kit.tools.find(has))
    case "consumable":
      return plain(kit.consumables.find(has))
    case "own-joint":
    case "bore":
    case "step":
      return undefined
  }
}

/** Pieces of the buyer's unit stand in no list: a number would point nowhere. */
function namePart({ name, itemReference, ownedBy }: Part): Named {
  return { name, reference: ownedBy === undefined ? itemReference : undefined }
}

function nameItem(
  item: { readonly name: string; readonly itemReference: number | undefined } | undefined,
): Named | undefined {
  return item === undefined ? undefined : { name: item.name, reference: item.itemReference }
}

function isOnlyEndCalled({ kit }: Context, { name }: CableEnd): boolean {
  return kit.cables.flatMap(({ ends }) => ends).filter((end) => end.name === name).length < 2
}

function isOwnLanguage({ words, makerLanguage }: Context): boolean {
  return makerLanguage === words.language
}

/** `plate (1)`, as it stands inside a sentence. The reference never parts from the name. */
export function sayName(context: Context, id: string, kinds: readonly NameKind[]): string {
  const { name, reference } = findName(context, id, kinds)
  return withReference(context.words.nameInSentence(name, isOwnLanguage(context)), reference)
}

/** What an act is done to. */
export function sayTarget(context: Context, { verb, target }: Act): string {
  return sayName(context, target, actsOn[verb])
}

/** Where an act leads: the passage of a `feed` and `withdraw`, the socket of a `connect` and `disconnect`. */
export function sayOther(context: Context, { verb, through, to }: Act): string | undefined {
  const isPassage = verb === "feed" || verb === "withdraw"
  const id = isPassage ? (through ?? to) : (to ?? through)
  return id === undefined ? undefined : sayName(context, id, [isPassage ? "passage" : "socket"])
}

/** The part of that id, or the part that the instance of that id is a copy of. */
export function findPart({ kit }: Context, id: string): Part | undefined {
  const piece = kit.instances.find((each) => each.id === id && each.owner === "part")
  return kit.parts.find((part) => part.id === id) ?? kit.parts.find((part) => part.id === piece?.of)
}

/** A name at the start of a line. Names that the maker did not write come in small letters from their ids. */
export function startLine(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}

/** Appends an item reference: `plate (1)`. */
export function withReference(name: string, reference: number | undefined): string {
  return reference === undefined ? name : `${name}\u00a0(${reference})`
}
