/** What is in the box, bag by bag, and the pieces that are easily confused. */
import type { BoxItem, ToolNeed } from "../fit/types.ts"
import { type Context, findJointFit, sayFastener, saySize, sayTool, sayTorque } from "./context.ts"
import { findName, sayName, startLine, withReference } from "./names.ts"
import type { Html } from "./render.ts"
import { type PictureChoice, pictureOf } from "./steps.ts"

export type ItemView = {
  readonly reference: string
  readonly count: string
  readonly designation: string
  /** Empty when no piece is a spare. */
  readonly spare: string
  /** `incl. 1 spare`; null when none is. */
  readonly spareWords: string | null
  /** Of a fastener, when all its joints have the same; empty for anything else. */
  readonly torque: string
  readonly picture: Html | null
  readonly widePicture: Html | null
}

export type BagView = {
  readonly id: string
  readonly name: string
  readonly note: string | null
  readonly hasPictures: boolean
  readonly hasItems: boolean
  readonly hasSpares: boolean
  readonly items: readonly ItemView[]
}

export type LookAlikeView = {
  readonly words: string
  readonly pieces: readonly { readonly designation: string; readonly picture: Html }[]
}

/**
 * Bags in the order of the kit, then what lies loose in the box. `place` keeps picture ids apart; pictures that are
 * too wide come below the words.
 */
export function viewBags(context: Context, place: string, pictures?: PictureChoice): readonly BagView[] {
  const { kit, fit, words } = context
  const bags = kit.bags.map((bag) => {
    const items = fit.box.filter((item) => item.bag === bag.id)
    const note = bag.isForOwnScrews && items.length === 0 ? words.box.ownScrews : null
    return viewBag(context, bag.id, words.box.bag(bag.id, bag.name), note, items, place, pictures)
  })
  const known = new Set(kit.bags.map((bag) => bag.id))
  const loose = fit.box.filter((item) => item.bag === undefined || !known.has(item.bag))
  if (loose.length > 0) bags.push(viewBag(context, "", words.box.loose, null, loose, place, pictures))
  return bags.filter((bag) => bag.items.length > 0 || bag.note !== null)
}

function viewBag(
  context: Context,
  id: string,
  name: string,
  note: string | null,
  items: readonly BoxItem[],
  place: string,
  pictures: PictureChoice | undefined,
): BagView {
  const sorted = [...items].sort((one, other) => one.itemReference - other.itemReference)
  const views = sorted.map((item) => viewItem(context, item, place, pictures))
  return {
    id,
    name,
    note,
    hasItems: views.length > 0,
    hasPictures: views.some((item) => item.picture !== null),
    hasSpares: sorted.some((item) => item.spare > 0),
    items: views,
  }
}

function viewItem(context: Context, item: BoxItem, place: string, pictures: PictureChoice | undefined): ItemView {
  const { measures } = context.words
  const designation = startLine(describeItem(context, item))
  const { picture, widePicture } = pictureOf(
    context,
    item.item,
    designation,
    item.fastener?.lengthMm,
    `${place}${item.bag ?? ""}`,
    pictures,
  )
  return {
    reference: measures.number(item.itemReference),
    count: measures.times(countSupplied(item)),
    designation,
    spare: item.spare === 0 ? "" : measures.number(item.spare),
    spareWords: item.spare === 0 ? null : context.words.box.ofWhichSpare(item.spare),
    torque: sayItemTorque(context, item),
    picture,
    widePicture,
  }
}

/** Torque of a screw of the box; where its joints differ, the guide must tell. */
function sayItemTorque(context: Context, item: BoxItem): string {
  if (item.fastener?.kind !== "screw") return ""
  const joints = context.kit.joints.filter((joint) => joint.itemReference === item.itemReference)
  const torques = [...new Set(joints.map((joint) => sayMarkedTorque(context, joint.id)))]
  return torques.length > 1 ? context.words.card.seeGuide : (torques[0] ?? "")
}

/** A torque that was only computed bears a star. */
function sayMarkedTorque(context: Context, joint: string): string | undefined {
  const torque = sayTorque(context, joint)
  const isMaker = findJointFit(context, joint)?.torque.origin === "maker"
  return torque === undefined || isMaker ? torque : `${torque}\u00a0*`
}

/** Pieces in the box: what the steps use, and the spares on top. */
function countSupplied(item: BoxItem): number {
  return item.count + item.spare
}

/** Designation of a fastener, or name and size of anything else. */
export function describeItem(context: Context, item: BoxItem): string {
  const { kit, words } = context
  const { measures, box } = words
  if (item.fastener !== undefined) return sayFastener(context, item.fastener)
  const id = item.id ?? ""
  const part = item.kind === "part" ? kit.parts.find((each) => each.id === id) : undefined
  if (part !== undefined) {
    return part.hand === undefined ? part.name : box.hand(part.name, part.hand)
  }
  const tie = item.kind === "tie" ? kit.ties.find((each) => each.id === id) : undefined
  if (tie !== undefined) {
    const say = tie.kind === "tie" ? box.tie : box.band
    return say(tie.name, measures.sizeMm([tie.widthMm, tie.lengthMm]))
  }
  const pad = item.kind === "pad" ? kit.pads.find((each) => each.id === id) : undefined
  if (pad !== undefined) {
    const sides = [...(pad.sizeMm ?? []), ...(pad.thicknessMm === undefined ? [] : [pad.thicknessMm])]
    return box.pad(pad.name, sides.length === 0 ? undefined : measures.sizeMm(sides))
  }
  const cable = item.kind === "cable" ? kit.cables.find((each) => each.id === id) : undefined
  if (cable !== undefined) {
    return box.cable(cable.name, cable.lengthMm === undefined ? undefined : measures.mm(cable.lengthMm))
  }
  return id
}

/** Pairs of fasteners that a person confuses, with life-size pictures. */
export function viewLookAlikes(context: Context): readonly LookAlikeView[] {
  const { fit, words } = context
  const find = (key: string): BoxItem | undefined =>
    fit.box.find((item) => item.item === key || item.fastener?.designation === key)
  return fit.lookAlikes.flatMap(({ one, other }, index) => {
    const pair = [find(one), find(other)].filter((item): item is BoxItem => item !== undefined)
    const [first, second] = pair
    if (first === undefined || second === undefined) return []
    const [firstMm, secondMm] = [first.fastener?.lengthMm, second.fastener?.lengthMm]
    const [firstName, secondName] = [startLine(describeItem(context, first)), describeItem(context, second)]
    const isByLength = firstMm !== undefined && secondMm !== undefined && firstMm !== secondMm
    return [
      {
        words: isByLength
          ? words.box.lookAlikeLength(firstName, words.measures.mm(firstMm), secondName, words.measures.mm(secondMm))
          : words.box.lookAlikeOther(firstName, secondName),
        pieces: pair.flatMap((item) => {
          const designation = startLine(describeItem(context, item))
          const { picture } = pictureOf(context, item.item, designation, item.fastener?.lengthMm, `like${index}`, {
            mostMm: 144,
          })
          return picture === null ? [] : [{ designation, picture }]
        }),
      },
    ]
  })
}

/** Tools with what they are for; the maker's own tools after the computed ones. */
export function viewTools(context: Context): readonly { readonly name: string; readonly purpose: string }[] {
  const { kit, fit, words } = context
  const computed = fit.tools
    .filter((tool) => tool.kind !== "declared")
    .map((tool) => ({
      name: startLine(sayTool(context, tool)),
      purpose: words.tools.forItems(words.list(purposesOf(context, tool))),
    }))
  const declared = kit.tools.map((tool) => {
    const steps = kit.steps.flatMap((step, index) =>
      step.tools.includes(tool.id) ? [words.steps.reference(words.measures.number(index + 1))] : [],
    )
    return {
      name: tool.isSupplied ? words.tools.supplied(startLine(tool.name)) : startLine(tool.name),
      purpose: steps.length === 0 ? "" : words.tools.forItems(words.list(steps)),
    }
  })
  return [...computed, ...declared]
}

/** What a tool is used on: item references of joints and ties, each once. */
function purposesOf(context: Context, { kind, uses }: ToolNeed): readonly string[] {
  const { kit, words } = context
  const names = uses.map((id) => {
    if (kind === "side-cutters" && kit.ties.some((each) => each.id === id)) return sayName(context, id, ["tie"])
    const joint = kit.joints.find((each) => each.id === id)
    if (joint !== undefined) return withReference(saySize(joint.fastener), joint.itemReference)
    const own = kit.ownJoints.find((each) => each.id === id)
    if (own !== undefined) return `${saySize(own.fastener)} (${words.steps.ownScrews})`
    const stepIndex = kit.steps.findIndex((step) => step.id === id)
    if (stepIndex >= 0) return words.steps.reference(words.measures.number(stepIndex + 1))
    const { name, reference } = findName(context, id, ["tie", "pad", "part"])
    return withReference(name, reference)
  })
  return [...new Set(names)]
}
