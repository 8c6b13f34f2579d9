/**
 * Replaces folders so that each is wholly old or wholly new, also when the process is killed at any moment.
 * A new folder is written in the work folder; a journal entry, itself put in place by one rename, says that it is
 * complete; then old goes out and new comes in. `finishSwaps` ends at the next start what a kill cut short.
 * Renaming is all it relies on; against a power cut it promises nothing, since nothing is forced to the disk.
 */
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, writeFileSync } from "node:fs"
import { dirname, join } from "node:path"

/** True when kit and variant are ids, so that their path stays inside the folder of documents. */
export function isTarget(kit: string, variant: string): boolean {
  return targetForm.test(`${kit}/${variant}`)
}

/** Where swaps are prepared, inside the folder of all documents, so that a rename never crosses disks. */
const workFolder = ".kitleaf"

/** `<kit>/<variant>`, below the folder of all documents. */
const targetForm = /^[a-z][a-z0-9-]*\/[a-z][a-z0-9+-]*$/

export type NewFile = { readonly path: string; readonly bytes: Uint8Array | string }

/** Gives the work folder of `out`; `part` names a place in it. */
export function workPlace(out: string, ...part: readonly string[]): string {
  return join(out, workFolder, ...part)
}

/** The file that says that the folder `target` is not what the kit would give now. */
export function markerOf(target: string): string {
  return `${target}.not-current.json`
}

/**
 * Puts a folder with `files` at `target` (`<kit>/<variant>`) below `out` in place of what stands there, and deletes
 * the marker beside it. Call it with the lock held.
 */
export function replaceFolder(out: string, target: string, files: readonly NewFile[]): void {
  if (!targetForm.test(target)) throw new Error(`${target} does not name a kit and a variant`)
  const fresh = workPlace(out, "new", target)
  rmSync(fresh, { recursive: true, force: true })
  for (const { path, bytes } of files) {
    mkdirSync(dirname(join(fresh, path)), { recursive: true })
    writeFileSync(join(fresh, path), bytes)
  }
  const entry = workPlace(out, "swaps", target.replace("/", "+"))
  writeInPlace(out, entry, "complete")
  finishSwap(out, target)
  rmSync(entry, { force: true })
  rmSync(workPlace(out, "old", target), { recursive: true, force: true })
}

/** Ends every swap that was cut short and clears what half-written folders a kill left. Call it with the lock held. */
export function finishSwaps(out: string): void {
  const entries = workPlace(out, "swaps")
  if (existsSync(entries)) {
    for (const name of readdirSync(entries)) {
      const target = name.replace("+", "/")
      if (targetForm.test(target)) finishSwap(out, target)
      rmSync(join(entries, name), { force: true })
    }
  }
  for (const part of ["new", "old", "swaps", "writing"]) rmSync(workPlace(out, part), { recursive: true, force: true })
}

/** Writes a file in the work folder and renames it to `path`: a reader meets the old or the new text, never a part. */
export function writeInPlace(out: string, path: string, text: string): void {
  mkdirSync(dirname(path), { recursive: true })
  const beside = workPlace(out, "writing")
  mkdirSync(dirname(beside), { recursive: true })
  writeFileSync(beside, text)
  renameSync(beside, path)
}

/** From here on the new folder is complete. Each line may have been done before a kill: then it is passed over. */
function finishSwap(out: string, target: string): void {
  const standing = join(out, target)
  const fresh = workPlace(out, "new", target)
  const old = workPlace(out, "old", target)
  if (existsSync(fresh)) {
    if (existsSync(standing)) {
      // A folder cannot be renamed onto one that holds files: what is in the way goes first.
      rmSync(old, { recursive: true, force: true })
      mkdirSync(dirname(old), { recursive: true })
      renameSync(standing, old)
    }
    mkdirSync(dirname(standing), { recursive: true })
    renameSync(fresh, standing)
  }
  rmSync(join(out, markerOf(target)), { force: true })
}
