/** The card on top of the box, A6: identity and limits on the first side, contents and torques from the second on. */
import type { Drawings } from "../drawing/types.ts"
import { viewBags } from "./contents.ts"
import { listShortDesignations, makeContext } from "./context.ts"
import { saySupplier, viewChecks } from "./front.ts"
import { listTorques } from "./guide.ts"
import { sayLimits } from "./limits.ts"
import { makePageCss, renderPage } from "./page.ts"
import { renderQrCode } from "./qr-code.ts"
import { renderPartial } from "./render.ts"
import { sortHazards, viewHazard } from "./safety.ts"
import type { Assets, Page, Proof, Sheet } from "./types.ts"
import type { Words } from "./words/types.ts"

/**
 * Renders the card as HTML for a sheet of A6. A long list of contents runs on over further sides; text is never made
 * smaller for it and never cut off. At most two hazards are repeated, the worst first.
 */
export function renderCard(options: {
  readonly proof: Proof
  readonly drawings: Drawings
  readonly sheet: Sheet
  readonly words: Words
  readonly assets: Assets
}): Page {
  const { proof, drawings, sheet, words, assets } = options
  const context = makeContext(proof, drawings, sheet, words)
  const { kit } = proof
  const { revision, supplier } = kit.identity
  const worst = sortHazards(kit.hazards).filter((hazard) => hazard.signalWord !== "notice")
  const torques = listTorques(context)
  const body = renderPartial(assets, "card", {
    words,
    isPaper: sheet.figures === "image",
    glued: listShortDesignations(context),
    title: kit.title,
    variant: kit.variant.title,
    limits: sayLimits(kit, words),
    checks: viewChecks(context).slice(0, 2),
    invented: kit.identity.isInvented ? words.front.invented : null,
    worst: worst.slice(0, 2).map((hazard) => viewHazard(context, hazard)),
    qr: revision.guide === "" ? null : renderQrCode(sheet, revision.guide, words.card.qrAlt(revision.guide)),
    guideAddress: revision.guide,
    bags: viewBags(context, "card", { mostMm: 28, scale: "none", onlyScrews: true }),
    hasComputedTorques: torques.some(({ isComputed }) => isComputed),
    supplier: saySupplier(supplier),
    revision,
  })
  const pageCss = makePageCss(sheet, words, {
    left: `${kit.title} · ${kit.variant.title}`,
    right: "",
    foot: `${kit.id}/${kit.variant.id} · ${words.labels.revision} ${revision.id} · ${revision.date}`,
  })
  const title = `${kit.title}, ${kit.variant.title}: ${words.labels.card}`
  return renderPage({ assets, words, title, body, styles: ["base", "card"], pageCss })
}
