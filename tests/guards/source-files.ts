/** The project's own source files, for the guards. */
import { readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"

const root = new URL("../..", import.meta.url).pathname

/** Every file below `folder` (relative to the repository) whose name ends with one of `endings`. */
export function sourceFiles(
  folder: string,
  ...endings: readonly string[]
): readonly { readonly path: string; readonly text: string }[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((file) => endings.some((ending) => file.endsWith(ending)))
    .sort()
    .map((file) => ({ path: join(folder, file), text: readFileSync(join(root, folder, file), "utf8") }))
}
