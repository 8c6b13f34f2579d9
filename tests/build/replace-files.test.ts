import {
  chmodSync,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { replaceFiles } from "../../src/build/replace-files.ts"
import { makeTempFolder } from "./temp-folder.ts"

const bytes = (text: string): Uint8Array => Buffer.from(text)

/** A folder with two files, and the replacement of both. */
function makeFolder() {
  const root = makeTempFolder()
  mkdirSync(join(root, "variants"))
  writeFileSync(join(root, "kit.yaml"), "old kit")
  writeFileSync(join(root, "variants/wide.yaml"), "old variant")
  const both = [
    { path: "kit.yaml", before: bytes("old kit"), after: bytes("new kit") },
    { path: "variants/wide.yaml", before: bytes("old variant"), after: bytes("new variant") },
  ]
  const read = (): readonly string[] => both.map(({ path }) => readFileSync(join(root, path), "utf8"))
  const listed = (): readonly string[] => readdirSync(root, { recursive: true, encoding: "utf8" }).sort()
  return { root, both, read, listed }
}

const old = ["old kit", "old variant"]
const files = ["kit.yaml", "variants", "variants/wide.yaml"]

test("replaces all files, keeps their modes and leaves nothing else behind", () => {
  const { root, both, read, listed } = makeFolder()
  chmodSync(join(root, "kit.yaml"), 0o640)
  expect(replaceFiles(root, both)).toBeUndefined()
  expect(read()).toEqual(["new kit", "new variant"])
  expect(statSync(join(root, "kit.yaml")).mode & 0o777).toBe(0o640)
  expect(listed()).toEqual(files)
})

test.each([
  [
    "changed",
    (root: string) => writeFileSync(join(root, "variants/wide.yaml"), "edited meanwhile"),
    ["old kit", "edited meanwhile"],
  ],
  [
    "changed back to the same length",
    (root: string) => writeFileSync(join(root, "kit.yaml"), "OLD KIT"),
    ["OLD KIT", "old variant"],
  ],
])("a file that %s right before the rename stops all of them", (_, meanwhile, after) => {
  const { root, both, read, listed } = makeFolder()
  expect(replaceFiles(root, both, () => meanwhile(root))).toMatch(
    /changed while the order was worked out; nothing was written/,
  )
  expect([read(), listed()]).toEqual([after, files])
})

test("a file that went away meanwhile is not made again", () => {
  const { root, both } = makeFolder()
  const told = replaceFiles(root, both, () => unlinkSync(join(root, "kit.yaml")))
  expect(told).toMatch(/`kit.yaml` changed/)
  expect([existsSync(join(root, "kit.yaml")), readFileSync(join(root, "variants/wide.yaml"), "utf8")]).toEqual([
    false,
    "old variant",
  ])
})

test("links, files with a second name, folders and read-only files are refused", () => {
  const link = makeFolder()
  unlinkSync(join(link.root, "kit.yaml"))
  writeFileSync(join(link.root, "real.yaml"), "old kit")
  symlinkSync("real.yaml", join(link.root, "kit.yaml"))
  expect(replaceFiles(link.root, link.both)).toMatch(/`kit.yaml` is a link; nothing was written/)
  expect(link.read()).toEqual(old)

  const second = makeFolder()
  linkSync(join(second.root, "kit.yaml"), join(second.root, "copy.yaml"))
  expect(replaceFiles(second.root, second.both)).toMatch(/another name elsewhere/)

  const folder = makeFolder()
  unlinkSync(join(folder.root, "kit.yaml"))
  mkdirSync(join(folder.root, "kit.yaml"))
  expect(replaceFiles(folder.root, folder.both)).toMatch(/is not a file/)

  const locked = makeFolder()
  chmodSync(join(locked.root, "variants/wide.yaml"), 0o444)
  expect(replaceFiles(locked.root, locked.both)).toMatch(/`variants\/wide.yaml` is read-only; nothing was written/)
  expect([locked.read(), locked.listed()]).toEqual([old, files])
})

test("when the second of two cannot be put in place, the first is taken back", () => {
  const { root, both, read, listed } = makeFolder()
  // A folder in place of the text that was written beside it: renaming it over a file is refused by the system.
  const spoil = (): void => {
    const fresh = readdirSync(join(root, "variants")).find((name) => name.endsWith(".new")) ?? ""
    unlinkSync(join(root, "variants", fresh))
    mkdirSync(join(root, "variants", fresh))
  }
  expect(() => replaceFiles(root, both, spoil)).toThrow()
  expect(read()).toEqual(old)
  expect(listed().filter((name) => !name.endsWith(".new"))).toEqual(files)
})
