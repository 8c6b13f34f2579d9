/** The installation guide of one variant. */
import type { Drawings } from "../drawing/types.ts"
import type { Kit } from "../kit/types.ts"
import { listCare, listInspections, listLeftOver, listRetightening, listTrouble } from "./after.ts"
import { viewBags, viewLookAlikes, viewTools } from "./contents.ts"
import {
  type Context,
  findJointFit,
  listShortDesignations,
  makeContext,
  sayFasteners,
  sayTools,
  sayTorque,
} from "./context.ts"
import { sayIdentity, viewFront, viewUse } from "./front.ts"
import { sayName } from "./names.ts"
import { listOrderReasons } from "./order-reasons.ts"
import { makePageCss, renderPage } from "./page.ts"
import { listRemoval, sayNeededAgain, sayStuck } from "./removal.ts"
import { renderPartial } from "./render.ts"
import { sortHazards, viewHazard, viewLegend } from "./safety.ts"
import { viewSteps } from "./steps.ts"
import type { Assets, Page, Proof, Sheet } from "./types.ts"
import type { Words } from "./words/types.ts"

/**
 * Renders the guide as one HTML file: no scripts, nothing fetched, text equal on every sheet. Drawings are inlined or
 * given as images, as the sheet says. Throws only when a partial asks for something that is not there: a fault of ours.
 */
export function renderGuide(options: {
  readonly proof: Proof
  readonly drawings: Drawings
  readonly sheet: Sheet
  readonly words: Words
  readonly assets: Assets
}): Page {
  const { proof, drawings, sheet, words, assets } = options
  const context = makeContext(proof, drawings, sheet, words)
  const { kit } = proof
  const title = `${kit.title}, ${kit.variant.title}: ${words.labels.guide}`
  const { revision, supplier } = kit.identity
  const body = renderPartial(assets, "guide", viewGuide(context))
  const pageCss = makePageCss(sheet, words, {
    left: `${kit.title} · ${kit.variant.title}`,
    right: `${words.labels.revision} ${revision.id} · ${revision.date} · ${words.language}`,
    foot: [`${kit.id}/${kit.variant.id}`, supplier.name, supplier.contact].filter((line) => line !== "").join(" · "),
  })
  return renderPage({ assets, words, title, body, styles: ["base", "guide"], pageCss })
}

function viewGuide(context: Context) {
  const { kit, words, sheet } = context
  const steps = viewSteps(context)
  const hazards = sortHazards(kit.hazards).map((hazard) => viewHazard(context, hazard))
  const used = [...hazards, ...steps.flatMap((step) => step.messages)].map((message) => message.signal)
  const { revision } = kit.identity
  const retightening = listRetightening(context)
  const care = listCare(context)
  const lookAlikes = viewLookAlikes(context)
  const order = listOrderReasons(context)
  const torques = listTorques(context)
  return {
    words,
    makerLanguage: context.makerLanguage,
    glued: listShortDesignations(context),
    isPaper: sheet.figures === "image",
    front: viewFront(context),
    use: viewUse(context),
    bags: viewBags(context, "box"),
    lookAlikes,
    hasLookAlikes: lookAlikes.length > 0,
    tools: viewTools(context),
    isToolSupplied: kit.tools.some((tool) => tool.isSupplied),
    consumables: words.list(kit.consumables.map((each) => sayName(context, each.id, ["consumable"]))),
    hasConsumables: kit.consumables.length > 0,
    hazards,
    unnamedHazards: hazards.length > 0 ? null : carriesEnergy(kit) ? words.front.energyUnnamed : words.front.noHazard,
    legend: viewLegend(context, used),
    steps,
    inspections: listInspections(context),
    leftOver: listLeftOver(context),
    retightening,
    hasRetightening: retightening.length > 0,
    care,
    hasCare: retightening.length + care.length > 0,
    trouble: listTrouble(context),
    removal: listRemoval(context),
    neededAgain: sayNeededAgain(context) ?? null,
    stuck: sayStuck(context) ?? null,
    order,
    hasOrder: order.length > 0,
    torques,
    hasTorques: torques.length > 0,
    hasComputedTorques: torques.some(({ isComputed }) => isComputed),
    guideAddress: revision.guide,
    document: sayIdentity(context),
    sections: listSections(context, order.length > 0),
  }
}

/** Every joint with its torque, tool and where the value comes from. */
export function listTorques(context: Context): readonly {
  readonly items: string
  readonly torque: string
  readonly tool: string
  readonly origin: string
  readonly isComputed: boolean
}[] {
  const { kit, words } = context
  return kit.joints.flatMap((joint) => {
    const torque = sayTorque(context, joint.id)
    if (torque === undefined) return []
    const isMaker = findJointFit(context, joint.id)?.torque.origin === "maker"
    return [
      {
        items: sayFasteners(context, joint, joint.count),
        torque,
        tool: sayTools(context, joint.id) ?? "",
        isComputed: !isMaker,
        origin: isMaker ? words.about.torqueMaker(joint.tried) : words.about.torqueComputed,
      },
    ]
  })
}

/** The entries of the table of contents. */
function listSections(
  { words }: Context,
  hasOrder: boolean,
): readonly { readonly id: string; readonly name: string }[] {
  const { labels } = words
  return [
    { id: "use", name: labels.use },
    { id: "box", name: labels.box },
    { id: "tools", name: labels.tools },
    { id: "safety", name: labels.safety },
    { id: "steps", name: labels.steps },
    { id: "inspection", name: labels.inspection },
    { id: "aftercare", name: labels.aftercare },
    { id: "trouble", name: labels.trouble },
    { id: "removal", name: labels.removal },
    ...(hasOrder ? [{ id: "order", name: labels.order }] : []),
    { id: "about", name: labels.about },
  ]
}

/** Where energy is at work nobody says that there is no hazard, even when the maker names none. */
function carriesEnergy({ units, cables }: Kit): boolean {
  return (
    units.some(({ isPowered, dischargeMinutes }) => isPowered || dischargeMinutes !== undefined) ||
    cables.some(({ isLive }) => isLive)
  )
}
