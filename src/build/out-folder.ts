/** The folder of all documents: what stands in it, what is marked as not current, and the index over all kits. */
import { existsSync, readdirSync, readFileSync, rmSync, statSync } from "node:fs"
import { join } from "node:path"
import type { IndexEntry } from "../document/types.ts"
import type { Finding } from "../findings/types.ts"
import { isTarget, markerOf, workPlace, writeInPlace } from "./swap.ts"
import { type IndexWords, readReport, type VariantReport } from "./variant-files.ts"

/** Says beside a folder that it is not what the kit would give now, or that nothing was ever built for a variant. */
export type Marker = {
  readonly kit: string
  readonly variant: string
  readonly index: IndexWords
  readonly errorCount: number
  readonly warningCount: number
  readonly verdict: string
}

/** Counts of findings that were not accepted. */
export function countFindings(findings: readonly Finding[]): { readonly errors: number; readonly warnings: number } {
  const count = (severity: Finding["severity"]): number =>
    findings.filter((one) => one.severity === severity && one.accepted === undefined).length
  return { errors: count("error"), warnings: count("warning") }
}

/** True when `index.html` stands in `out` and no build has ever run there: it is somebody else's. */
export function isForeignIndex(out: string): boolean {
  return existsSync(join(out, "index.html")) && !existsSync(workPlace(out))
}

/** Reports of the variant folders that stand for a kit, sorted by folder. */
export function listStanding(out: string, kit: string): readonly VariantReport[] {
  return listFolders(join(out, kit)).flatMap((name) => {
    if (!isTarget(kit, name)) return []
    const report = readReport(join(out, kit, name))
    return report === undefined || report.kit !== kit || report.variant !== name ? [] : [report]
  })
}

/** Writes the marker of a variant; none for names that are no ids, of which nothing can stand either. */
export function writeMarker(out: string, marker: Marker): void {
  if (!isTarget(marker.kit, marker.variant)) return
  const path = join(out, markerOf(`${marker.kit}/${marker.variant}`))
  writeInPlace(out, path, `${JSON.stringify(marker, null, 2)}\n`)
}

/** Removes markers of variants that `kit` no longer has and of which nothing stands. */
export function dropStaleMarkers(out: string, kit: string, variants: readonly string[]): void {
  for (const { variant } of listMarkers(out, kit)) {
    const target = `${kit}/${variant}`
    if (!variants.includes(variant) && !existsSync(join(out, target))) rmSync(join(out, markerOf(target)))
  }
}

/** One entry a variant for the index over all kits in `out`, sorted by kit and variant. */
export function listIndexEntries(out: string): readonly IndexEntry[] {
  return listFolders(out).flatMap((kit) => {
    const reports = new Map(listStanding(out, kit).map((report) => [report.variant, report]))
    const markers = new Map(listMarkers(out, kit).map((marker) => [marker.variant, marker]))
    const variants = [...new Set([...reports.keys(), ...markers.keys()])].sort()
    return variants.map((variant) => makeEntry(out, kit, variant, reports.get(variant), markers.get(variant)))
  })
}

function makeEntry(
  out: string,
  kit: string,
  variant: string,
  report: VariantReport | undefined,
  marker: Marker | undefined,
): IndexEntry {
  // What stands is what a buyer gets: its own words go before those of a newer state that was not built.
  const words = report?.index ?? marker?.index
  const counts = countFindings(report?.findings ?? [])
  const overview = join(out, kit, variant, "drawings", "overview.svg")
  return {
    kit,
    kitTitle: words?.kitTitle ?? kit,
    variant,
    variantTitle: words?.variantTitle ?? variant,
    fitsWords: words?.fitsWords ?? "",
    revision: words?.revision ?? "",
    overviewSvg: report !== undefined && existsSync(overview) ? readFileSync(overview, "utf8") : undefined,
    // A report of the last good build would say that there are no errors.
    links:
      report === undefined ? [] : listLinks(report).filter(({ kind }) => kind !== "report" || marker === undefined),
    errorCount: marker?.errorCount ?? counts.errors,
    warningCount: marker?.warningCount ?? counts.warnings,
    isCurrent: marker === undefined,
    verdict: marker?.verdict ?? sayBuilt(counts.warnings, report?.browser !== undefined),
  }
}

/** The verdict on a variant whose documents are current. */
export function sayBuilt(warningCount: number, hasPages: boolean): string {
  const warnings = warningCount === 0 ? "" : `, ${warningCount} warning${warningCount === 1 ? "" : "s"}`
  return hasPages ? `built${warnings}` : `HTML built${warnings}; no PDF, since no browser was found`
}

const linked: readonly (readonly [IndexEntry["links"][number]["kind"], string])[] = [
  ["guide", "guide.html"],
  ["a4", "guide.a4.pdf"],
  ["letter", "guide.letter.pdf"],
  ["card", "card.pdf"],
]

function listLinks({ kit, variant, documents }: VariantReport): IndexEntry["links"] {
  const there = new Set(documents.map(({ path }) => path))
  const links = linked.filter(([, path]) => there.has(path))
  return [...links, ["report", "report.html"] as const].map(([kind, path]) => ({
    kind,
    href: `${kit}/${encodeURIComponent(variant)}/${path}`,
  }))
}

function listMarkers(out: string, kit: string): readonly Marker[] {
  const folder = join(out, kit)
  if (!existsSync(folder)) return []
  return readdirSync(folder)
    .filter((name) => name.endsWith(markerOf("")) && isTarget(kit, name.slice(0, -markerOf("").length)))
    .sort()
    .flatMap((name) => {
      try {
        // Written by `writeMarker`; whatever else bears the name is passed over.
        const marker = JSON.parse(readFileSync(join(folder, name), "utf8")) as Marker
        return markerOf(marker.variant) === name && marker.kit === kit ? [marker] : []
      } catch {
        return []
      }
    })
}

function listFolders(folder: string): readonly string[] {
  if (!(statSync(folder, { throwIfNoEntry: false })?.isDirectory() ?? false)) return []
  return readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && /^[a-z]/.test(entry.name))
    .map(({ name }) => name)
    .sort()
}
