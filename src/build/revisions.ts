/** Tells when what a revision stands for has changed: two buyers would hold different guides of one name. */
import { existsSync, readFileSync } from "node:fs"
import { finding } from "../findings/order.ts"
import { placeAt } from "../findings/places.ts"
import type { Finding } from "../findings/types.ts"
import type { Kit } from "../kit/types.ts"
import { hashKit } from "./content.ts"
import { workPlace, writeInPlace } from "./swap.ts"
import type { VariantReport } from "./variant-files.ts"

/** The content with which a revision was first built here. */
type FirstBuild = { readonly revision: string; readonly content: string }

/**
 * Gives the finding `revision-not-raised` when the variant was built before under the same revision with other
 * content. It stays until the revision is raised or the content is what it was.
 */
export function compareRevision(out: string, kit: Kit, standing: VariantReport | undefined): readonly Finding[] {
  const first = readFirstBuild(out, kit, standing)
  const { id } = kit.identity.revision
  if (first === undefined || first.revision !== id || first.content === hashKit(kit)) return []
  const report = {
    message: `revision \`${id}\` was built before with other content`,
    why: `whoever holds a guide of revision ${id} holds another one than this, under the same name`,
    fix: `raise \`revision: id\`; if no guide of revision ${id} was ever handed out, delete the folder of its documents`,
    where: placeAt(kit.places, "revision", "id"),
    source: "practice: one revision, one content",
  }
  return [{ ...finding("revision-not-raised", "warning", report), variants: [kit.variant.id] }]
}

/** Notes the content of a revision that is built for the first time. Call it once its documents stand. */
export function noteRevision(out: string, kit: Kit, standing: VariantReport | undefined): void {
  const { id } = kit.identity.revision
  const first = readFirstBuild(out, kit, standing)
  const now = first?.revision === id ? first : { revision: id, content: hashKit(kit) }
  writeInPlace(out, placeOf(out, kit), JSON.stringify(now))
}

/** The note counts only for the revision that stands: a folder that was deleted, or a kill before noting, ends it. */
function readFirstBuild(out: string, kit: Kit, standing: VariantReport | undefined): FirstBuild | undefined {
  if (standing === undefined) return undefined
  const built = { revision: standing.revision.id, content: standing.content }
  const path = placeOf(out, kit)
  if (!existsSync(path)) return built
  try {
    // Written by `noteRevision`.
    const noted = JSON.parse(readFileSync(path, "utf8")) as FirstBuild
    return noted.revision === built.revision ? noted : built
  } catch {
    return built
  }
}

function placeOf(out: string, kit: Kit): string {
  return workPlace(out, "revisions", kit.id, `${kit.variant.id}.json`)
}
