/** Folders of a test that are removed when it ends. */
import { mkdtempSync, rmSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { onTestFinished } from "vitest"

/** Makes an empty folder that goes when the running test is done. */
export function makeTempFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "kitleaf-test-"))
  onTestFinished(() => rmSync(folder, { recursive: true, force: true, maxRetries: 10 }))
  return folder
}
