/** The maker's report of one variant: every finding with its place, and the computed values of the joints. */
import type { Finding, Place } from "../findings/types.ts"
import { renderPage } from "./page.ts"
import { renderPartial } from "./render.ts"
import type { Assets, Page, Proof } from "./types.ts"
import type { Words } from "./words/types.ts"

/** Renders the findings in the order given, then grip, engagement and torque of each joint with where they come from. */
export function renderReport(options: { readonly proof: Proof; readonly words: Words; readonly assets: Assets }): Page {
  const { proof, words, assets } = options
  const { kit, fit, findings } = proof
  const { measures } = words
  const countOf = (severity: Finding["severity"]): number =>
    findings.filter((finding) => finding.severity === severity && finding.accepted === undefined).length
  const title = words.report.title(kit.title, kit.variant.title)
  const joints = fit.joints.map(({ joint, gripMm, engagementMm, torque }) => ({
    joint,
    grip: gripMm === undefined ? "–" : measures.mm(gripMm.value),
    gripFrom: gripMm?.from ?? "",
    engagement: engagementMm === undefined ? "–" : measures.mm(engagementMm),
    torque: torque.valueNm === undefined ? "–" : measures.torque(torque.valueNm),
    governing: torque.governing ?? "",
  }))
  const body = renderPartial(assets, "report", {
    words,
    title,
    counts: words.report.counts(countOf("error"), countOf("warning"), countOf("note")),
    isClean: findings.length === 0,
    findings: findings.map((finding) => viewFinding(finding, words)),
    joints,
    hasJoints: joints.length > 0,
    ...viewMeasured(proof, words),
    document: words.about.document(
      kit.id,
      kit.variant.id,
      kit.identity.revision.id,
      kit.identity.revision.date,
      words.language,
    ),
  })
  return renderPage({ assets, words, title, body, styles: ["base", "index"], pageCss: "@page { margin: 20mm }" })
}

/** Ties, seats and openings as they were computed; ids are the maker's own words and stay. */
function viewMeasured({ fit }: Proof, words: Words) {
  const { measures, report } = words
  const orDash = (value: number | undefined, say: (value: number) => string): string =>
    value === undefined ? "–" : say(value)
  const ties = fit.ties.map(({ tie, loopMm, neededMm, suppliedMm, slotFits, load }) => ({
    tie,
    loop: orDash(loopMm, measures.mm),
    needed: orDash(neededMm, measures.mm),
    supplied: measures.mm(suppliedMm),
    slot: slotFits === undefined ? "–" : report.fitsWords(slotFits),
    load:
      load === undefined
        ? "–"
        : report.loadOf(measures.newtons(load.neededN), measures.newtons(load.bornN), measures.number(load.factor)),
  }))
  const seats = fit.seats.map(({ part, seatMm, neededMm, gapMm }) => ({
    part,
    measured: orDash(seatMm?.value, measures.mm),
    needed: measures.mm(neededMm),
    gap: orDash(gapMm, measures.mm),
  }))
  const passages = fit.passages.map(({ passage, end, envelope, opening, passes, why }) => ({
    passage,
    end,
    opening: measures.outline(opening),
    envelope: measures.outline(envelope),
    passes: report.fitsWords(passes),
    why,
  }))
  return {
    ties,
    hasTies: ties.length > 0,
    seats,
    hasSeats: seats.length > 0,
    passages,
    hasPassages: passages.length > 0,
  }
}

function viewFinding(finding: Finding, words: Words) {
  return {
    severity: finding.severity,
    severityWord: words.report.severity[finding.severity],
    id: finding.id,
    message: finding.message,
    where: sayPlace(finding.where),
    why: finding.why ?? null,
    fix: finding.fix ?? null,
    source: finding.source ?? null,
    accepted: finding.accepted === undefined ? null : words.report.accepted(finding.accepted),
    related: finding.related.map(({ message, where }) => ({ message, where: sayPlace(where) })),
  }
}

function sayPlace({ file, line, column }: Place): string {
  return `${file}:${line}:${column}`
}
