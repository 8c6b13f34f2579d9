/** The text files of a kit folder in memory, with findings for what could not be read. */
import { existsSync, readdirSync, realpathSync, statSync } from "node:fs"
import { basename, join } from "node:path"
import { finding } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import type { KitFile } from "./prove.ts"
import { type ReadProblem, readInside } from "./safe-read.ts"
import type { SourceFile } from "./types.ts"

/** A spec of a thousand steps has about 300 kB; a text above this is no spec. */
const textLimitBytes = 2_000_000
/** Binary STL of two million triangles. */
const modelLimitBytes = 100_000_000
const variantFileLimit = 500

/** The kit folder as read. `root` is its real path, for reading models later. */
export type KitFolder = {
  readonly root: string
  readonly files: readonly KitFile[]
  readonly findings: readonly Finding[]
}

/** Gives the folders below `folder` that hold a kit, or the folder itself when it is one or none is found. */
export function findKitFolders(folder: string): readonly string[] {
  if (existsSync(join(folder, "kit.yaml")) || !existsSync(folder)) return [folder]
  const inner = readdirSync(folder, { withFileTypes: true })
    .filter((entry) => entry.isDirectory() && existsSync(join(folder, entry.name, "kit.yaml")))
    .map((entry) => join(folder, entry.name))
    .sort()
  return inner.length === 0 ? [folder] : inner
}

/**
 * Reads `kit.yaml` and `variants/*.yaml`. What is missing, leaves the folder or is too large becomes a finding
 * (`kit-file-missing`, `text-file-not-read`, `too-many-variant-files`); the rest is read all the same.
 */
export function readKitFolder(folder: string): KitFolder {
  const root = realpathSync(folder)
  const files: KitFile[] = []
  const findings: Finding[] = []
  const listed = listVariantFiles(root)
  for (const path of ["kit.yaml", ...listed.slice(0, variantFileLimit)]) {
    const read = readInside(root, path, textLimitBytes)
    if ("bytes" in read) files.push({ path, bytes: read.bytes })
    else findings.push(tellTextProblem(path, read.problem))
  }
  if (listed.length > variantFileLimit) {
    const message = `\`variants\` holds ${listed.length} files, at most ${variantFileLimit} are read`
    findings.push(finding("too-many-variant-files", "error", { message, where: wholeFile("variants") }))
  }
  return { root, files, findings }
}

/** Reads one model of a kit; `file` is the path as the spec names it. */
export function readModelFile(root: string, file: string): ReturnType<typeof readInside> {
  return readInside(root, file, modelLimitBytes)
}

/** Texts of the files, for the lines of findings. */
export function decodeFiles(files: readonly KitFile[]): readonly SourceFile[] {
  return files.map(({ path, bytes }) => ({ path, text: new TextDecoder().decode(bytes) }))
}

/** Id of a kit whose spec could not be loaded: what `kit:` says, else the folder's name. */
export function guessKitId(folder: string, files: readonly KitFile[]): string {
  const text = decodeFiles(files.filter(({ path }) => path === "kit.yaml"))[0]?.text ?? ""
  return /^kit:\s*["']?([a-z][a-z0-9-]*)/m.exec(text)?.[1] ?? basename(realpathSync(folder))
}

/** True when `folder` is there and is a folder. */
export function isFolder(folder: string): boolean {
  return statSync(folder, { throwIfNoEntry: false })?.isDirectory() ?? false
}

function listVariantFiles(root: string): readonly string[] {
  const folder = join(root, "variants")
  // A `variants` that is a link is listed only when it stays inside; each file is checked again when it is read.
  if (!isFolder(folder) || !realpathSync(folder).startsWith(root)) return []
  return readdirSync(folder)
    .filter((name) => /\.ya?ml$/.test(name) && !name.startsWith("."))
    .sort()
    .map((name) => `variants/${name}`)
}

function tellTextProblem(path: string, problem: ReadProblem): Finding {
  if (problem.kind === "missing" && path === "kit.yaml") {
    const message = "`kit.yaml` is not in the folder, so there is no kit to read"
    const fix = "name the folder that holds `kit.yaml`, or start one with `kitleaf new NAME`"
    return finding("kit-file-missing", "error", { message, fix, where: wholeFile(path) })
  }
  const megabytes = (bytes: number): string => `${(bytes / 1e6).toFixed(1)} MB`
  const words: Readonly<Record<ReadProblem["kind"], readonly [string, string]>> = {
    outside: ["is a link that leaves the kit's folder", "put the file itself there"],
    missing: ["is a link to a file that is not there", "put the file itself there"],
    "not-a-file": ["is not a file", "put a text file there, or take it away"],
    unreadable: ["cannot be read with the rights of this user", "let this user read it"],
    "too-large": [
      problem.kind === "too-large"
        ? `has ${megabytes(problem.sizeBytes)}, a spec has at most ${megabytes(problem.limitBytes)}`
        : "is too large",
      "move what is not spec out of it",
    ],
  }
  const [says, fix] = words[problem.kind]
  return finding("text-file-not-read", "error", { message: `\`${path}\` ${says}`, fix, where: wholeFile(path) })
}

function wholeFile(file: string): Finding["where"] {
  return { file, path: [], line: 1, column: 1, endLine: 1, endColumn: 1 }
}
