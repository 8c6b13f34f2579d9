/** Runs the compiled program as its users do. */
import { spawn } from "node:child_process"
import { fileURLToPath } from "node:url"
// @ts-expect-error Plain JavaScript, since it runs before any compiler is there.
import { isCompiled } from "../../src/setup/compile.mjs"

/** File of the compiled program. */
export const mainFile = fileURLToPath(new URL("../../.build/cli/main.js", import.meta.url))

/** What a run of the program gave. */
export type Run = { readonly code: number | null; readonly stdout: string; readonly stderr: string }

/** Throws when the compiled program is not that of the sources: a test of the old one would show nothing. */
export function requireCompiled(): void {
  if (!isCompiled()) throw new Error("`.build` is older than `src`; run `node src/setup/setup.mjs compile`")
}

/** Runs `kitleaf` with `words` in the folder `cwd`. */
export function runKitleaf(
  words: readonly string[],
  cwd: string,
  env: Readonly<Record<string, string>> = {},
): Promise<Run> {
  const child = spawn(process.execPath, [mainFile, ...words], {
    cwd,
    env: { ...process.env, ...env },
    stdio: ["ignore", "pipe", "pipe"],
  })
  const texts = { stdout: "", stderr: "" }
  child.stdout.on("data", (bytes: Buffer) => {
    texts.stdout += bytes.toString()
  })
  child.stderr.on("data", (bytes: Buffer) => {
    texts.stderr += bytes.toString()
  })
  return new Promise((resolve) => child.on("close", (code) => resolve({ code, ...texts })))
}
