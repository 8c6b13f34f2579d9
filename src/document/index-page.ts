/** The page over all kits: a buyer finds the guide of their frame, a maker the results of the checks. */
import { renderPage } from "./page.ts"
import { type Html, renderPartial } from "./render.ts"
import type { Assets, IndexEntry, Page } from "./types.ts"
import type { Words } from "./words/types.ts"

/** Renders `out/index.html`. Entries keep their order; variants of one kit stand together. */
export function renderIndex(entries: readonly IndexEntry[], words: Words, assets: Assets): Page {
  const kits = new Map<string, IndexEntry[]>()
  for (const entry of entries) kits.set(entry.kit, [...(kits.get(entry.kit) ?? []), entry])
  const body = renderPartial(assets, "index", {
    words,
    isEmpty: entries.length === 0,
    kits: [...kits].map(([id, variants]) => ({
      id,
      title: variants[0]?.kitTitle ?? id,
      variants: variants.map((entry) => viewEntry(entry, words)),
    })),
  })
  return renderPage({
    assets,
    words,
    title: words.index.title,
    body,
    styles: ["base", "index"],
    pageCss: "@page { margin: 20mm }",
  })
}

function viewEntry(entry: IndexEntry, words: Words) {
  const hasGuide = entry.links.some(({ kind }) => kind !== "report")
  const picture: Html | null = entry.overviewSvg === undefined ? null : { html: entry.overviewSvg }
  return {
    id: `${entry.kit}-${entry.variant}`.replace(/[^a-z0-9-]/g, "-"),
    title: entry.variantTitle,
    fits: entry.fitsWords,
    revision: entry.revision,
    picture,
    report: entry.links.find(({ kind }) => kind === "report")?.href ?? null,
    reportLabel: words.index.linkTitle(words.index.links.report, entry.kitTitle, entry.variantTitle),
    links: entry.links
      .filter(({ kind }) => kind !== "report")
      .map(({ kind, href }) => ({
        href,
        name: words.index.links[kind],
        label: words.index.linkTitle(words.index.links[kind], entry.kitTitle, entry.variantTitle),
      })),
    warning: entry.isCurrent ? null : hasGuide ? words.index.notCurrent : words.index.noDocuments,
    verdict: entry.verdict,
    counts: words.index.counts(entry.errorCount, entry.warningCount),
  }
}
