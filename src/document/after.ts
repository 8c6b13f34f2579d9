/** What comes after the last step: final inspection, what is left over, aftercare, trouble. */

import type { LastChance } from "../sequence/advice-types.ts"
import { describeItem } from "./contents.ts"
import { type Context, sayFastener, sayFasteners, sayTies, sayTorque } from "./context.ts"
import { findPart, pieceKinds, sayName, startLine, withReference } from "./names.ts"

/**
 * Statements to tick: every fastener tight, every tie closed, every cable where it belongs. What a later step closed in was
 * ticked there, as the last chance, and says so.
 */
export function listInspections(context: Context): readonly string[] {
  const { kit, sequence, words } = context
  const { after } = words
  const lines: string[] = []
  const tightened = new Set(sequence.steps.flatMap((step) => step.jointsTightened))
  for (const joint of kit.joints) {
    if (!tightened.has(joint.id)) continue
    const line = after.jointTight(sayFasteners(context, joint, joint.count), sayTorque(context, joint.id))
    lines.push(tickedBefore(context, "joint", joint.id, line))
  }
  const closed = new Set(sequence.steps.flatMap((step) => step.tiesClosed))
  for (const tie of kit.ties)
    if (closed.has(tie.id))
      lines.push(tickedBefore(context, "tie", tie.id, after.tieClosed(sayTies(context, tie, tie.count), tie.until)))
  const stuck = new Set(sequence.steps.flatMap((step) => step.padsStuck))
  for (const pad of kit.pads) {
    if (!stuck.has(pad.id)) continue
    const line = after.padSits(`${words.measures.times(pad.count)}\u00a0${sayName(context, pad.id, ["pad"])}`)
    lines.push(tickedBefore(context, "pad", pad.id, line))
  }
  const touched = new Set(
    sequence.steps.flatMap((step) => step.cables.filter((each) => each.touched).map((each) => each.cable)),
  )
  for (const cable of sequence.steps.at(-1)?.cables ?? []) {
    if (!touched.has(cable.cable)) continue
    for (const passage of cable.passages) {
      const [lead, opening] = [sayName(context, cable.cable, ["cable"]), sayName(context, passage, ["passage"])]
      lines.push(after.cableThrough(lead, opening))
      if (kit.passages.some(({ id, clamps }) => id === passage && clamps !== undefined))
        lines.push(after.glandTight(opening, lead))
    }
    for (const { end, socket } of cable.connected) {
      const line = after.cableConnected(sayName(context, end, ["end"]), sayName(context, socket, ["socket"]))
      lines.push(tickedBefore(context, "end", end, line))
    }
  }
  return lines.map(startLine)
}

/** Adds to a statement the step at which it was to be ticked, where that was the last chance. */
function tickedBefore(context: Context, kind: LastChance["kind"], id: string, line: string): string {
  const { kit, sequence, words } = context
  const point = sequence.advice.noReturn.findLast(({ lastChance }) =>
    lastChance.some((chance) => chance.kind === kind && chance.id === id),
  )
  const at = kit.steps.findIndex((step) => step.id === point?.step)
  return at < 0
    ? line
    : words.after.tickedAt(line.replace(/\.$/, ""), words.steps.reference(words.measures.number(at + 1)))
}

/** What must lie on the table at the end: spares, own screws and pieces of the unit, tools. The last of the checks. */
export function listLeftOver(context: Context): readonly string[] {
  const { kit, fit, sequence, words } = context
  const { after, measures } = words
  const { left } = sequence.advice
  const spareOf = new Map<number, { readonly name: string; readonly count: number }>()
  for (const { item, count } of left.filter(({ kind }) => kind === "spare")) {
    const line = fit.box.find((each) => each.item === item)
    if (line === undefined) continue
    const before = spareOf.get(line.itemReference)?.count ?? 0
    spareOf.set(line.itemReference, { name: describeItem(context, line), count: before + count })
  }
  const spares = [...spareOf].map(([reference, { name, count }]) =>
    after.leftSpare(`${measures.times(count)}\u00a0${withReference(name, reference)}`),
  )
  const bag = kit.bags.find((each) => each.isForOwnScrews)?.name
  const ownOf = new Map<string, number>()
  for (const { id, count, fastener } of kit.ownJoints) {
    if (!left.some(({ kind, item }) => kind === "own-screws" && item === id)) continue
    const name = sayFastener(context, fastener)
    ownOf.set(name, (ownOf.get(name) ?? 0) + count)
  }
  const own = [...ownOf].map(([name, count]) => after.leftOwn(`${measures.times(count)}\u00a0${name}`, bag))
  const pieces = left
    .filter(({ kind }) => kind === "taken-off")
    .map(({ item, count }) => after.leftPiece({ count, what: sayName(context, item, [...pieceKinds, "cable"]) }))
  const isTrimmed = kit.steps.some((step) => step.acts.some((act) => act.verb === "trim"))
  const hasTools = left.some(({ kind }) => kind === "tool")
  const rest = [...(isTrimmed ? [after.leftMore] : []), ...(hasTools ? [after.leftTools] : [])]
  return [...spares, ...own, ...pieces, ...rest].map(startLine)
}

/** Screws of the buyer's unit that are set aside and not put back. */
export function isKept({ kit }: Context, ownJoint: string): boolean {
  const acts = kit.steps.flatMap((step) => step.acts).filter((act) => act.target === ownJoint)
  const lastAside = acts.findLastIndex((act) => act.verb === "set-aside")
  return lastAside >= 0 && !acts.slice(lastAside).some((act) => act.verb === "start" || act.verb === "tighten")
}

/**
 * Joints that lose force because plastic settles, each with its torque and what must come off before. Screws that are locked
 * or glued are left alone: turning them breaks what holds them.
 */
export function listRetightening(context: Context): readonly string[] {
  const { kit, words } = context
  const covers = [...kit.units, ...kit.parts]
  const isPlastic = (id: string): boolean => findPart(context, id)?.material?.kind === "plastic"
  return kit.joints
    .filter(({ bore, through }) => bore.kind !== "pilot" && through.some(isPlastic))
    .filter(({ surface, cureMinutes }) => surface !== "thread-lock" && cureMinutes === undefined)
    .map((joint) => {
      const line = words.after.retighten(sayFasteners(context, joint, joint.count), sayTorque(context, joint.id))
      const before = covers
        .filter((cover) => cover.covers.includes(joint.id))
        .map(({ id }) => sayName(context, id, pieceKinds))
      return before.length === 0 ? line : `${line} ${words.after.retightenBehind(before)}`
    })
}

/** Further care: ties, sun, salt. */
export function listCare({ kit, words }: Context): readonly string[] {
  const lines: string[] = []
  if (kit.ties.some((tie) => tie.kind === "tie")) lines.push(words.after.ties)
  if (kit.ties.some((tie) => tie.kind === "tie") && kit.environment.sun) lines.push(words.after.tiesSun)
  if (kit.environment.salt) lines.push(words.after.salt)
  return lines
}

/** What may go wrong and what to do; a thread or plug only where the kit has one. */
export function listTrouble(context: Context): readonly { readonly sign: string; readonly remedy: string }[] {
  const { kit, fit, words } = context
  const { trouble } = words
  const identity = `${kit.title}, ${kit.variant.title}, ${words.labels.revision} ${kit.identity.revision.id}`
  const rows = [
    { sign: trouble.missing, remedy: trouble.missingTodo(identity, kit.identity.supplier.contact) },
    {
      sign: trouble.noFit,
      remedy: trouble.noFitTodo(
        kit.limits.tubeMm !== undefined,
        kit.units.some((unit) => unit.model !== undefined),
      ),
    },
  ]
  const name = (joints: typeof kit.joints): string =>
    [...new Set(joints.map((joint) => sayFastener(context, joint.fastener, joint.itemReference)))].join(", ")
  const metal = kit.joints.filter((joint) => joint.bore.kind !== "pilot")
  const plastic = kit.joints.filter((joint) => joint.bore.kind === "pilot")
  if (kit.joints.length > 0) rows.push({ sign: trouble.stiff, remedy: trouble.stiffTodo })
  if (metal.length > 0) rows.push({ sign: trouble.stripsMetal(name(metal)), remedy: trouble.stripsMetalTodo })
  if (plastic.length > 0) rows.push({ sign: trouble.stripsPlastic(name(plastic)), remedy: trouble.stripsPlasticTodo })
  const fed = new Set(
    kit.steps.flatMap((step) =>
      step.acts.filter((act) => act.verb === "feed").map((act) => `${act.target} ${act.through ?? ""}`),
    ),
  )
  for (const { end, passage } of fit.passages) {
    if (!fed.has(`${end} ${passage}`)) continue
    rows.push({
      sign: trouble.plug(sayName(context, end, ["end"]), sayName(context, passage, ["passage"])),
      remedy: trouble.plugTodo,
    })
  }
  return [
    ...rows.map(({ sign, remedy }) => ({ sign: startLine(sign), remedy })),
    { sign: trouble.checkFails, remedy: trouble.checkFailsTodo },
  ]
}
