/** Writes texts of the maker over what stands there: whole or not at all, and only over what was read before. */
import { closeSync, lstatSync, openSync, readFileSync, renameSync, rmSync, statSync, writeSync } from "node:fs"
import { basename, dirname, join } from "node:path"

/** A file of the kit with the bytes that were read and those that are to stand there; the path is relative to the folder. */
export type Replacement = { readonly path: string; readonly before: Uint8Array; readonly after: Uint8Array }

/**
 * Replaces files of the folder `root`, each by a rename within its folder, with its mode kept; gives a sentence when nothing
 * was written. Refused are links, files with other names of their own (hard links), read-only files, and files that no
 * longer hold what was read, which is looked at right before the first rename. When one rename of several does not
 * succeed, those before are taken back. `onReady` is called when all is written but nothing yet replaced.
 */
export function replaceFiles(
  root: string,
  replacements: readonly Replacement[],
  onReady: () => void = () => undefined,
): string | undefined {
  for (const { path } of replacements) {
    const problem = findProblem(join(root, path), path)
    if (problem !== undefined) return problem
  }
  const fresh = replacements.map(({ path, after }) => ({ path, temp: nameTemp(join(root, path)), bytes: after }))
  const done: Replacement[] = []
  try {
    for (const { path, temp, bytes } of fresh) writeNew(temp, bytes, statSync(join(root, path)).mode)
    onReady()
    const changed = replacements.find(({ path, before }) => !holds(join(root, path), before))
    if (changed !== undefined)
      return `\`${changed.path}\` changed while the order was worked out; nothing was written. Run it again.`
    for (const [index, { path, temp }] of fresh.entries()) {
      renameSync(temp, join(root, path))
      const replacement = replacements[index]
      if (replacement !== undefined) done.push(replacement)
    }
    return undefined
  } catch (fault) {
    for (const { path, before } of done) takeBack(join(root, path), before)
    throw fault
  } finally {
    for (const { temp } of fresh) rmSync(temp, { force: true })
  }
}

function findProblem(file: string, path: string): string | undefined {
  const facts = lstatSync(file, { throwIfNoEntry: false })
  if (facts === undefined) return `\`${path}\` is no longer there; nothing was written.`
  if (facts.isSymbolicLink())
    return `\`${path}\` is a link; nothing was written. Put the file itself into the kit's folder.`
  if (!facts.isFile()) return `\`${path}\` is not a file; nothing was written.`
  if (facts.nlink > 1)
    return `\`${path}\` has another name elsewhere (a hard link), which would keep the old text; nothing was written.`
  // A rename would pass over the missing right; whoever took it away did not want the file changed.
  if ((facts.mode & 0o222) === 0)
    return `\`${path}\` is read-only; nothing was written. Let it be written, then run it again.`
  return undefined
}

/** A name beside the file that no reader of the kit takes for one of its own. */
function nameTemp(file: string): string {
  return join(dirname(file), `.${basename(file)}.${process.pid}.new`)
}

function writeNew(temp: string, bytes: Uint8Array, mode: number): void {
  // An old file of this name is left from a run that was killed.
  rmSync(temp, { force: true })
  const handle = openSync(temp, "wx", mode & 0o777)
  try {
    let written = 0
    while (written < bytes.length) written += writeSync(handle, bytes, written)
  } finally {
    closeSync(handle)
  }
}

function holds(file: string, bytes: Uint8Array): boolean {
  return (lstatSync(file, { throwIfNoEntry: false })?.isFile() ?? false) && readFileSync(file).equals(bytes)
}

function takeBack(file: string, bytes: Uint8Array): void {
  const temp = nameTemp(file)
  writeNew(temp, bytes, statSync(file).mode)
  renameSync(temp, file)
}
