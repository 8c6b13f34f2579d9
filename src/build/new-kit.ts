/** Starts a kit: a folder with a `kit.yaml` that passes. */
import { existsSync, mkdirSync, writeFileSync } from "node:fs"
import { basename, dirname, join } from "node:path"
import { writeStarterKit } from "./starter-kit.ts"

/**
 * Makes the folder `path` with a `kit.yaml`; its last name becomes the kit's id. Gives the file written, or a
 * sentence when the name is no id or the folder is there already: nothing is ever overwritten.
 */
export function newKit(path: string): { readonly file: string } | { readonly problem: string } {
  const id = basename(path)
  if (!/^[a-z][a-z0-9-]*$/.test(id)) {
    const problem = `\`${id}\` cannot be a kit's id: use small letters, digits and hyphens, a letter first.`
    return { problem }
  }
  if (existsSync(path)) return { problem: `\`${path}\` is there already; choose another name.` }
  if (!existsSync(dirname(path))) return { problem: `The folder \`${dirname(path)}\` is not there.` }
  const file = join(path, "kit.yaml")
  mkdirSync(path)
  writeFileSync(file, writeStarterKit(id))
  return { file }
}
