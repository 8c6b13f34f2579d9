/** The kits of the repository as files in memory, for tests of whole kits. */
import { existsSync, readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"
import type { KitFile } from "../../src/build/prove.ts"

const root = new URL("../../", import.meta.url).pathname

/** Kit folders from the root of the repository: those that users see, and those that only tests use. */
export const kitFolders: readonly string[] = ["guides", "tests/guides"].flatMap((above) =>
  readdirSync(join(root, above))
    .filter((name) => existsSync(join(root, above, name, "kit.yaml")))
    .sort()
    .map((name) => `${above}/${name}`),
)

/** Reads `kit.yaml` and `variants/*.yaml` of a kit folder. */
export function readKitFiles(folder: string): readonly KitFile[] {
  const variants = join(root, folder, "variants")
  const names = existsSync(variants) ? readdirSync(variants).filter((name) => name.endsWith(".yaml")) : []
  return ["kit.yaml", ...names.sort().map((name) => `variants/${name}`)].map((path) => ({
    path,
    bytes: readFileSync(join(root, folder, path)),
  }))
}

/** Reads a model of a kit folder; undefined when there is none of that name. */
export function readKitModel(folder: string, file: string): Uint8Array | undefined {
  const path = join(root, folder, "models", file)
  return existsSync(path) ? readFileSync(path) : undefined
}
