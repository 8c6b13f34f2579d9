/** Ties drawing and document stages together: which documents a variant has, on which paper, in which file. */

import type { Assets, Page, Proof, Sheet, Words } from "../document/index.ts"
import { renderCard, renderGuide, renderIndex, renderReport, sayLimits, sheets, wordTables } from "../document/index.ts"
import { drawKit, renderSvg, reviewDrawings } from "../drawing/index.ts"
import type { Drawing, Drawings } from "../drawing/types.ts"
import type { Finding } from "../findings/types.ts"
import type { Kit } from "../kit/types.ts"
import type { Kernel } from "../solids/types.ts"
import type { Documents, IndexWords } from "./variant-files.ts"

const { screen, a4, letter, a6 } = sheets

/** Draws a variant for the column of the guide. */
export function drawProof(
  { kit, fit, sequence }: Proof,
  kernel: Kernel,
): { readonly drawings: Drawings; readonly findings: readonly Finding[] } {
  const { value, findings } = drawKit({ kit, fit, sequence, columnMm: a4.columnMm, kernel })
  return { drawings: value, findings: findings.map((one) => ({ ...one, variants: [kit.variant.id] })) }
}

/** What drawing a variant finds, without its drawings. */
export function reviewProof({ kit, fit, sequence }: Proof): readonly Finding[] {
  const findings = reviewDrawings({ kit, fit, sequence, columnMm: a4.columnMm })
  return findings.map((one) => ({ ...one, variants: [kit.variant.id] }))
}

/** Makes every document of a variant, in the first of the kit's languages that we have words for. */
export function makeDocuments(proof: Proof, drawings: Drawings, assets: Assets): Documents {
  const { kit } = proof
  const words = findWords(kit.identity.languages)
  const guideOn = (sheet: Sheet): Page => renderGuide({ proof, drawings, sheet, words, assets })
  const print = (path: string, sheet: Sheet, { html }: Page): Documents["prints"][number] => ({
    path,
    job: { html, name: path, widthMm: sheet.widthMm, heightMm: sheet.heightMm, date: kit.identity.revision.date },
  })
  return {
    pages: [
      { path: "guide.html", html: guideOn(screen).html },
      { path: "report.html", html: renderReport({ proof, words, assets }).html },
    ],
    prints: [
      print("guide.a4.pdf", a4, guideOn(a4)),
      print("guide.letter.pdf", letter, guideOn(letter)),
      print("card.pdf", a6, renderCard({ proof, drawings, sheet: a6, words, assets })),
    ],
    drawings: listDrawings(drawings).map((drawing) => ({
      path: `drawings/${drawing.id}.svg`,
      svg: renderSvg(drawing, `${kit.id}-${kit.variant.id.replaceAll("+", "-")}-${drawing.id}-`, {
        title: `${kit.title}, ${kit.variant.title}: ${drawing.step ?? drawing.id}`,
        description: "",
      }),
    })),
    index: sayIndexWords(kit),
  }
}

/** What the index says about a variant; its limits as one line: `round tube 31.5 to 32.5 mm; up to 1.2 kg`. */
export function sayIndexWords(kit: Kit): IndexWords {
  return {
    kitTitle: kit.title,
    variantTitle: kit.variant.title,
    fitsWords: sayLimits(kit, findWords(kit.identity.languages)).join("; "),
    revision: kit.identity.revision.id,
  }
}

/** The index over all kits. It serves several kits at once, so it speaks English. */
export function makeIndex(entries: Parameters<typeof renderIndex>[0], assets: Assets): string {
  return renderIndex(entries, findWords([]), assets).html
}

function listDrawings({ overview, steps }: Drawings): readonly Drawing[] {
  return [overview, ...Object.values(steps)]
}

function findWords(languages: readonly string[]): Words {
  const words = [...languages, "en"].map((language) => wordTables[language]).find((table) => table !== undefined)
  if (words === undefined) throw new Error("the English words are missing")
  return words
}
