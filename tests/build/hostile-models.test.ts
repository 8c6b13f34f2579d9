import { mkdirSync, readFileSync, symlinkSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"
import { checkKit, newKit } from "../../src/build/index.ts"
import { makeTempFolder } from "./temp-folder.ts"

/** Checks a small kit whose unit is the model named so, beside a secret file. */
async function checkWithModel(model: string): Promise<readonly string[]> {
  const cwd = makeTempFolder()
  const kit = join(cwd, "arm")
  newKit(kit)
  writeFileSync(join(cwd, "secret.stl"), "solid secret")
  mkdirSync(join(kit, "models"))
  symlinkSync("../../secret.stl", join(kit, "models", "link.stl"))
  writeFileSync(join(kit, "models", "torn.stl"), "solid x\nfacet normal 0 0 1\n outer loop\n vertex 0 0")
  writeFileSync(join(kit, "models", "empty.stl"), "")
  const file = join(kit, "kit.yaml")
  const text = readFileSync(file, "utf8").replace("shape: { box: 60 x 40 x 20 }", `model: "${model}"`)
  writeFileSync(file, text)
  const line = text.split("\n").findIndex((one) => one.includes(model)) + 1
  const { findings } = await checkKit(kit)
  expect(JSON.stringify(findings)).not.toContain("solid secret")
  return findings
    .filter(({ severity, where }) => severity === "error" && where.line === line)
    .map(({ id, message }) => `${id}: ${message}`)
}

test.each([
  ["../secret.stl", "mesh-outside-kit"],
  ["/etc/hostname", "mesh-outside-kit"],
  ["models/../../secret.stl", "mesh-outside-kit"],
  ["link.stl", "model-outside-kit: `link.stl` leads out of the kit's folder"],
  ["missing.stl", "model-not-found: `missing.stl` is not in the kit's folder `models`"],
  ["torn.stl", "`torn.stl`"],
  ["empty.stl", "`empty.stl`"],
])("a model named `%s` is told once, at its place", async (model, expected) => {
  const told = await checkWithModel(model)
  expect(told).toHaveLength(1)
  expect(told[0]).toContain(expected)
})
