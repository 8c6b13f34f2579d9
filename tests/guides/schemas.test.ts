import { readFileSync } from "node:fs"
import { expect, test } from "vitest"
import { kitSchema, variantSchema } from "../../src/spec/index.ts"
import { kitFolders, readKitFiles } from "./kit-files.ts"

const root = new URL("../../", import.meta.url).pathname
const published = kitFolders.filter((folder) => folder.startsWith("guides/"))

test.each(published)("the schemas beside %s are those of the format", (folder) => {
  for (const [name, schema] of Object.entries({
    "kit.schema.json": kitSchema(),
    "variant.schema.json": variantSchema(),
  })) {
    const committed: unknown = JSON.parse(readFileSync(`${root}${folder}/${name}`, "utf8"))
    expect(committed).toEqual(JSON.parse(JSON.stringify(schema)))
  }
})

test.each(published)("every file of %s names its schema at the top", (folder) => {
  for (const { path, bytes } of readKitFiles(folder)) {
    const schema = path === "kit.yaml" ? "./kit.schema.json" : "../variant.schema.json"
    expect(Buffer.from(bytes).toString("utf8").split("\n")[0]).toBe(`# yaml-language-server: $schema=${schema}`)
  }
})
