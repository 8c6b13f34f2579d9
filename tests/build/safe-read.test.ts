import { execFileSync } from "node:child_process"
import { mkdirSync, symlinkSync, truncateSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { readKitFolder } from "../../src/build/read-kit.ts"
import { readInside } from "../../src/build/safe-read.ts"
import { makeTempFolder } from "./temp-folder.ts"

/** A kit folder beside a secret, with every kind of way out. */
function makeHostileKit(): string {
  const above = makeTempFolder()
  const kit = join(above, "kit")
  mkdirSync(join(kit, "models"), { recursive: true })
  writeFileSync(join(above, "secret.stl"), "secret")
  mkdirSync(join(above, "kit-next"))
  writeFileSync(join(above, "kit-next", "part.stl"), "neighbour")
  writeFileSync(join(kit, "models", "part.stl"), "part")
  symlinkSync(join(above, "secret.stl"), join(kit, "models", "absolute-link.stl"))
  symlinkSync("../../secret.stl", join(kit, "models", "link.stl"))
  symlinkSync("../kit-next", join(kit, "neighbour"))
  symlinkSync("part.stl", join(kit, "models", "alias.stl"))
  symlinkSync("nowhere.stl", join(kit, "models", "dangling.stl"))
  symlinkSync("loop.stl", join(kit, "models", "loop.stl"))
  symlinkSync("/dev/zero", join(kit, "models", "zero.stl"))
  execFileSync("mkfifo", [join(kit, "models", "pipe.stl")])
  writeFileSync(join(kit, "models", "huge.stl"), "")
  truncateSync(join(kit, "models", "huge.stl"), 5_000_000_000)
  return kit
}

test.each([
  ["models/part.stl", "part"],
  ["./models/part.stl", "part"],
  ["models/alias.stl", "part"],
  ["models/missing.stl", "missing"],
  ["models/dangling.stl", "missing"],
  ["models/loop.stl", "missing"],
  ["models/link.stl", "outside"],
  ["models/absolute-link.stl", "outside"],
  ["neighbour/part.stl", "outside"],
  ["models/zero.stl", "outside"],
  ["../secret.stl", "outside"],
  ["models/../../secret.stl", "outside"],
  ["models\\..\\..\\secret.stl", "outside"],
  ["/etc/passwd", "outside"],
  ["C:\\secret.stl", "outside"],
  ["models/part.stl\0.txt", "outside"],
  ["models", "not-a-file"],
  ["models/pipe.stl", "not-a-file"],
  ["models/huge.stl", "too-large"],
  ["", "outside"],
])("of a hostile kit, `%s` gives %s", (path, expected) => {
  const read = readInside(makeHostileKit(), path, 1_000_000)
  expect("bytes" in read ? Buffer.from(read.bytes).toString() : read.problem.kind).toBe(expected)
})

test("text files of a kit that are links out, pipes or giants are told and not read", () => {
  const kit = makeHostileKit()
  mkdirSync(join(kit, "variants"))
  writeFileSync(join(kit, "kit.yaml"), "kit: x\n")
  writeFileSync(join(kit, "variants", "good.yaml"), "kit: x\n")
  symlinkSync("../../secret.stl", join(kit, "variants", "out.yaml"))
  execFileSync("mkfifo", [join(kit, "variants", "pipe.yaml")])
  writeFileSync(join(kit, "variants", "large.yaml"), "")
  truncateSync(join(kit, "variants", "large.yaml"), 3_000_000)
  const { files, findings } = readKitFolder(kit)
  expect(files.map(({ path }) => path)).toEqual(["kit.yaml", "variants/good.yaml"])
  expect(findings.map(({ id, message }) => `${id}: ${message}`)).toEqual([
    "text-file-not-read: `variants/large.yaml` has 3.0 MB, a spec has at most 2.0 MB",
    "text-file-not-read: `variants/out.yaml` is a link that leaves the kit's folder",
    "text-file-not-read: `variants/pipe.yaml` is not a file",
  ])
})

test("a folder of variants that is a link out is not read", () => {
  const kit = makeHostileKit()
  writeFileSync(join(kit, "kit.yaml"), "kit: x\n")
  writeFileSync(join(kit, "..", "kit-next", "secret.yaml"), "kit: x\n")
  symlinkSync("../kit-next", join(kit, "variants"))
  expect(readKitFolder(kit).files.map(({ path }) => path)).toEqual(["kit.yaml"])
})
