/** Where the repository stands, and a hash over files; shared by the parts of the set-up. */
import { createHash } from "node:crypto"
import { existsSync, readdirSync, readFileSync } from "node:fs"
import { join, relative } from "node:path"
import { fileURLToPath } from "node:url"

/** The repository's folder. */
export const root = fileURLToPath(new URL("../..", import.meta.url))

/** Gives the SHA-256 over Node's version and over names and bytes of `files`; a missing file counts as empty. */
export function hashFiles(files) {
  const hash = createHash("sha256").update(process.version)
  for (const file of files) hash.update(`\n${file}\n`).update(readBytes(join(root, file)))
  return hash.digest("hex")
}

/** Gives the files below `folder` that end with `ending`, sorted, relative to the repository. */
export function listFiles(folder, ending) {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && entry.name.endsWith(ending))
    .map(({ parentPath, name }) => relative(root, join(parentPath, name)))
    .sort()
}

/** True when the file `stamp` holds `text`. */
export function isStamped(stamp, text) {
  return readBytes(join(root, stamp)).toString("utf8") === text
}

function readBytes(path) {
  return existsSync(path) ? readFileSync(path) : Buffer.alloc(0)
}
