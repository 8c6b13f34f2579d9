/** Reads files of a kit folder that may come from a stranger: nothing outside it, no link out, no device, no giant. */
import { closeSync, constants, fstatSync, openSync, readSync, realpathSync } from "node:fs"
import { isAbsolute, join, sep } from "node:path"

/** Why a file was not read. `outside` is a path or link that leaves the kit folder. */
export type ReadProblem =
  | { readonly kind: "outside" | "missing" | "not-a-file" | "unreadable" }
  | { readonly kind: "too-large"; readonly sizeBytes: number; readonly limitBytes: number }

export type ReadResult = { readonly bytes: Uint8Array } | { readonly problem: ReadProblem }

/**
 * Reads `path`, relative to the kit's folder `root`, up to `limitBytes`. Absolute paths, `..`, and links whose end
 * is outside the folder are refused without being opened; pipes, devices and folders are refused unread.
 */
export function readInside(root: string, path: string, limitBytes: number): ReadResult {
  if (isAbsolute(path) || /^[A-Za-z]:/.test(path) || path.includes("\0") || path.split(/[/\\]/).includes("..")) {
    return { problem: { kind: "outside" } }
  }
  const real = resolveReal(join(root, path))
  if (real === undefined) return { problem: { kind: "missing" } }
  const realRoot = resolveReal(root)
  if (realRoot === undefined || !real.startsWith(realRoot.endsWith(sep) ? realRoot : realRoot + sep)) {
    return { problem: { kind: "outside" } }
  }
  // The real path holds no links; should one be put there at this moment, opening stops at it.
  const flags = constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0)
  let file: number
  try {
    file = openSync(real, flags)
  } catch {
    return { problem: { kind: "unreadable" } }
  }
  try {
    return readOpened(file, limitBytes)
  } catch {
    return { problem: { kind: "unreadable" } }
  } finally {
    closeSync(file)
  }
}

function readOpened(file: number, limitBytes: number): ReadResult {
  const { size } = fstatSync(file)
  if (!fstatSync(file).isFile()) return { problem: { kind: "not-a-file" } }
  if (size > limitBytes) return { problem: { kind: "too-large", sizeBytes: size, limitBytes } }
  const bytes = new Uint8Array(size)
  let length = 0
  while (length < size) {
    const count = readSync(file, bytes, length, size - length, null)
    if (count === 0) break
    length += count
  }
  return { bytes: bytes.subarray(0, length) }
}

function resolveReal(path: string): string | undefined {
  try {
    return realpathSync(path)
  } catch {
    return undefined
  }
}
