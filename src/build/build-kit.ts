/** Builds kits with the real stages. */
import { buildWith } from "./run-build.ts"
import { loadStages } from "./stages.ts"
import type { BuildOptions, BuildResult } from "./types.ts"

/**
 * Builds all variants of the kits in `folders` into `out`, one folder `<kit>/<variant>` each, and `out/index.html`
 * over all kits that stand there. A variant with errors keeps what its last good build made. Waits for another
 * build in the same `out`. Throws only when a folder cannot be read or `out` cannot be written.
 */
export async function buildKits(
  folders: readonly string[],
  out: string,
  options: BuildOptions,
): Promise<readonly BuildResult[]> {
  return buildWith(await loadStages(options.env), folders, out, options.onProgress ?? (() => undefined))
}

/** Builds one kit; see `buildKits`. */
export async function buildKit(folder: string, out: string, options: BuildOptions): Promise<BuildResult> {
  const [result] = await buildKits([folder], out, options)
  if (result === undefined) throw new Error("one folder gives one result")
  return result
}
