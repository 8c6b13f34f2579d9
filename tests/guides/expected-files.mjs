/** Where the expected outputs of whole kits stand, and how one is named that differs from them. */
import { extname } from "node:path"
import { fileURLToPath } from "node:url"

/** Folder with one folder a kit. */
export const expectedFolder = fileURLToPath(new URL("expected", import.meta.url))

/** `guide.txt` gives `guide.changed.txt`, which git ignores. */
export const changedName = (path) => `${path.slice(0, -extname(path).length)}.changed${extname(path)}`

/** True for names that `changedName` gives. */
export const isChangedName = (name) => /\.changed\.\w+$/.test(name)
