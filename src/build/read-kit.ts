/** The text files of a kit folder in memory, with findings for what could not be read. */
import { existsSync, lstatSync, readdirSync, realpathSync, statSync } from "node:fs"
import { basename, isAbsolute, join, sep } from "node:path"
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
 * (`text-file-not-read`, `too-many-variant-files`); the rest is read all the same.
 */
export function readKitFolder(folder: string): KitFolder {
  const root = realpathSync(folder)
  const files: KitFile[] = []
  const findings: Finding[] = []
  const listed = listVariantFiles(root)
  for (const path of ["kit.yaml", ...listed.slice(0, variantFileLimit)]) {
    const read = readInside(root, path, textLimitBytes)
    if ("bytes" in read) files.push({ path, bytes: read.bytes })
    // That there is no kit at all is told by the reader of the spec.
    else if (path !== "kit.yaml" || isLinked(root)) findings.push(tellTextProblem(path, read.problem))
  }
  if (listed.length > variantFileLimit) {
    const message = `\`variants\` holds ${listed.length} files, at most ${variantFileLimit} are read`
    findings.push(finding("too-many-variant-files", "error", { message, where: wholeFile("variants") }))
  }
  return { root, files, findings }
}

/** A model's bytes with its path in the folder, or the finding in words; `id` is the rule. */
export type ModelRead =
  | { readonly path: string; readonly bytes: Uint8Array }
  | { readonly problem: { readonly id: string; readonly message: string; readonly fix: string } }

/** Reads a model of the kit in `root`; `file` is its name as the spec has it, inside the folder `models`. */
export function readModelFile(root: string, file: string): ModelRead {
  const inner = file.replace(/^(\.\/)?models\//, "")
  // Joining would make a path inside of an absolute one; that is for `readInside` to refuse.
  const path = isAbsolute(inner) ? inner : `models/${inner}`
  const read = readInside(root, path, modelLimitBytes)
  return "bytes" in read ? { path, bytes: read.bytes } : { problem: tellModelProblem(file, read.problem) }
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
function isFolder(folder: string): boolean {
  return statSync(folder, { throwIfNoEntry: false })?.isDirectory() ?? false
}

/** True when `kit.yaml` is there in some form, be it a link to nowhere. */
function isLinked(root: string): boolean {
  return lstatSync(join(root, "kit.yaml"), { throwIfNoEntry: false }) !== undefined
}

function listVariantFiles(root: string): readonly string[] {
  const folder = join(root, "variants")
  // A `variants` that is a link is listed only when it stays inside; each file is checked again when it is read.
  if (!isFolder(folder) || !realpathSync(folder).startsWith(root + sep)) return []
  return readdirSync(folder)
    .filter((name) => /\.ya?ml$/.test(name) && !name.startsWith("."))
    .sort()
    .map((name) => `variants/${name}`)
}

function tellModelProblem(
  file: string,
  problem: ReadProblem,
): { readonly id: string; readonly message: string; readonly fix: string } {
  const name = `\`${file.length > 48 ? `${file.slice(0, 47)}…` : file}\``
  const put = "put the file into the kit's folder `models` and write its name"
  switch (problem.kind) {
    case "outside":
      return { id: "model-outside-kit", message: `${name} leads out of the kit's folder`, fix: put }
    case "missing":
      return { id: "model-not-found", message: `${name} is not in the kit's folder \`models\``, fix: put }
    case "too-large": {
      const message = `${name} has ${megabytes(problem.sizeBytes)}, a model has at most ${megabytes(problem.limitBytes)}`
      return { id: "model-too-large", message, fix: "export it with fewer triangles" }
    }
    case "not-a-file":
      return { id: "model-not-read", message: `${name} is not a file`, fix: put }
    case "unreadable":
      return { id: "model-not-read", message: `${name} cannot be read with the rights of this user`, fix: put }
  }
}

function tellTextProblem(path: string, problem: ReadProblem): Finding {
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

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(1)} MB`
}

function wholeFile(file: string): Finding["where"] {
  return { file, path: [], line: 1, column: 1, endLine: 1, endColumn: 1 }
}
