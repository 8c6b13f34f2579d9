/**
 * Whole kits against what they gave when somebody last looked: findings, text of guide and card, drawings. What has
 * changed is written beside as `*.changed.*` and shown in `out/changed.html`; `npm run accept` takes it over.
 */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs"
import { basename, dirname, join } from "node:path"
import { afterAll, expect, test } from "vitest"
import { readAssets } from "../../src/build/assets.ts"
import { drawProof, makeDocuments } from "../../src/build/documents.ts"
import { proveKit } from "../../src/build/prove.ts"
import type { Proof } from "../../src/document/types.ts"
import { renderFinding } from "../../src/findings/render.ts"
import { loadKernel } from "../../src/solids/index.ts"
import { type Change, renderChanges } from "./changes-page.ts"
import { changedName, expectedFolder, isChangedName } from "./expected-files.mjs"
import { kitFolders, readKitFiles, readKitModel } from "./kit-files.ts"
import { listLines } from "./page-lines.ts"

const changesPage = new URL("../../out/changed.html", import.meta.url).pathname
const kernel = await loadKernel()
const assets = readAssets()
const changes: Change[] = []

afterAll(() => {
  rmSync(changesPage, { force: true })
  if (changes.length === 0) return
  mkdirSync(dirname(changesPage), { recursive: true })
  writeFileSync(changesPage, renderChanges(changes))
})

test.each(kitFolders)("%s gives what it gave", (folder) => {
  const readModel = (file: string) => {
    const bytes = readKitModel(folder, file)
    return bytes === undefined ? { problem: { message: `there is no ${file}` } } : { bytes }
  }
  const { proofs } = proveKit(readKitFiles(folder), { kernel, readModel })
  // The first and the last variant differ most, and the drawings of all would be large.
  const looked = proofs.filter((_, index) => index === 0 || index === proofs.length - 1)
  const now = new Map(looked.flatMap(listOutputs))
  const home = join(expectedFolder, basename(folder))
  const names = [...new Set([...now.keys(), ...listExpected(home)])].sort()
  expect(names.filter((name) => hasChanged(home, name, now.get(name)))).toEqual([])
})

/** Every output of a variant as text, by its path below the kit's folder of what is expected. */
function listOutputs(proof: Proof): readonly (readonly [path: string, text: string])[] {
  const { drawings, findings } = drawProof(proof, kernel)
  const documents = makeDocuments(proof, drawings, assets)
  const pages: readonly (readonly [string, string | undefined])[] = [
    ["guide.txt", documents.pages.find(({ path }) => path === "guide.html")?.html],
    ["card.txt", documents.prints.find(({ path }) => path === "card.pdf")?.job.html],
  ]
  const outputs = [
    ["findings.txt", [...proof.findings, ...findings].map((one) => renderFinding(one, () => undefined)).join("\n")],
    ...pages.map(([name, html]) => [name, listLines(html ?? "").join("\n")] as const),
    ...documents.drawings.map(({ path, svg }) => [basename(path), svg.replaceAll(">", ">\n")] as const),
  ] as const
  return outputs.map(([name, text]) => [`${proof.kit.variant.id}/${name}`, `${roundNumbers(text).trim()}\n`])
}

/** Three decimals: what lies behind them is no change that anybody could see. */
function roundNumbers(text: string): string {
  return text.replace(/-?\d+\.\d{4,}/g, (number) => Number(number).toFixed(3))
}

function listExpected(home: string): readonly string[] {
  if (!existsSync(home)) return []
  return readdirSync(home, { recursive: true, encoding: "utf8", withFileTypes: true })
    .filter((entry) => entry.isFile() && !isChangedName(entry.name))
    .map(({ parentPath, name }) => join(parentPath, name).slice(home.length + 1))
}

/** Compares one output; writes a changed one beside, an empty file for one that is no longer given. */
function hasChanged(home: string, name: string, now: string | undefined): boolean {
  const path = join(home, name)
  const beside = changedName(path)
  const before = existsSync(path) ? readFileSync(path, "utf8") : undefined
  if (now === before) {
    rmSync(beside, { force: true })
    return false
  }
  mkdirSync(dirname(path), { recursive: true })
  writeFileSync(beside, now ?? "")
  changes.push({ name: `${basename(home)}/${name}`, before: before ?? "", now: now ?? "" })
  return true
}
