import { readdirSync, readFileSync } from "node:fs"
import { join } from "node:path"
import { expect, test } from "vitest"

/** Who may import whom: DEVELOPERS.md, "Map of folders". Type-only imports count too. */
const allowed: Readonly<Record<string, readonly string[]>> = {
  units: [],
  findings: ["units"],
  text: ["units", "findings"],
  fasteners: ["units", "findings"],
  solids: ["units", "findings"],
  spec: ["units", "findings", "text", "solids"],
  kit: ["units", "findings", "text", "spec", "fasteners", "solids"],
  fit: ["units", "findings", "spec", "fasteners", "solids", "kit"],
  sequence: ["units", "findings", "spec", "kit", "fit"],
  checks: ["units", "findings", "text", "fasteners", "solids", "kit", "fit", "sequence"],
  drawing: ["units", "findings", "fasteners", "solids", "kit", "fit", "sequence"],
  document: ["units", "findings", "text", "fasteners", "solids", "kit", "fit", "sequence", "drawing"],
  print: ["units", "findings", "document"],
  build: [
    "units",
    "findings",
    "text",
    "fasteners",
    "solids",
    "spec",
    "kit",
    "fit",
    "sequence",
    "checks",
    "drawing",
    "document",
    "print",
  ],
  cli: ["build", "findings", "units"],
}

const packages: Readonly<Record<string, readonly string[]>> = {
  text: ["unified", "remark-parse", "mdast"],
  spec: ["yaml", "zod"],
  solids: ["manifold-3d"],
  document: [
    "unified",
    "remark-parse",
    "remark-rehype",
    "rehype-sanitize",
    "rehype-stringify",
    "handlebars",
    "uqr",
    "mdast",
    "hast",
  ],
  print: ["puppeteer", "node:fs", "node:path", "node:os", "node:child_process", "node:url"],
  build: ["node:"],
  cli: ["node:", "commander"],
}

const root = new URL("../../src", import.meta.url).pathname

test("each folder imports only what the table allows", () => {
  const faults: string[] = []
  for (const file of readdirSync(root, { recursive: true, encoding: "utf8" })) {
    if (!file.endsWith(".ts")) continue
    const folder = file.split("/")[0] ?? ""
    const text = readFileSync(join(root, file), "utf8")
    for (const [, target = ""] of text.matchAll(/(?:\b(?:from|import)\s+|\bimport\(\s*)"([^"]+)"/g)) {
      if (target.startsWith(".")) {
        const reached = join(folder, file.split("/").slice(1, -1).join("/"), target).split("/")[0] ?? ""
        if (reached !== folder && !(allowed[folder] ?? []).includes(reached)) faults.push(`${file} imports ${target}`)
      } else if (
        !(packages[folder] ?? []).some((name) => target === name || (name.endsWith(":") && target.startsWith(name)))
      ) {
        faults.push(`${file} imports package ${target}`)
      }
    }
  }
  expect(faults).toEqual([])
})
