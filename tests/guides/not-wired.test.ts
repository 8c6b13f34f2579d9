import { expect, test } from "vitest"
import { isMap, isScalar, parseDocument, visit } from "yaml"
import { sourceFiles } from "../guards/source-files.ts"
import { kitFolders, readKitFiles } from "./kit-files.ts"

/** Blocks of a kit whose keys are ids of the maker. */
const blocks = [
  "host",
  "parts",
  "cables",
  "passages",
  "joints",
  "ties",
  "pads",
  "tools",
  "consumables",
  "hazards",
  "steps",
]

/**
 * Names of a kit that nothing else has a reason to hold: ids of more than five letters (shorter ones are words of any
 * program: `plug`, `rail`), the kit's and its variants' ids, titles, and names of several words.
 */
function namesOf(yaml: string): readonly string[] {
  const names: string[] = []
  visit(parseDocument(yaml), {
    Pair(_key, { key, value }, ancestors) {
      if (!isScalar(key) || typeof key.value !== "string") return
      const owner = ancestors.at(-2)
      const block = owner && "key" in owner && isScalar(owner.key) ? owner.key.value : undefined
      const depth = ancestors.filter((one) => isMap(one)).length
      const text = isScalar(value) && typeof value.value === "string" ? value.value : ""
      if (depth === 1 && (key.value === "kit" || key.value === "variant") && text !== "") names.push(text)
      if (depth === 2 && block === "variant" && key.value === "id") names.push(text)
      if (key.value === "title" || (key.value === "name" && text.includes(" "))) names.push(text)
      if (depth === 2 && blocks.includes(String(block)) && key.value.length > 5) names.push(key.value)
    },
  })
  return names
}

test("the names of a kit are found where a maker writes them", () => {
  const yaml =
    "kit: garden-arm\nvariant: { id: tube-a }\ntitle: Arm\nparts: { long-plate: { name: Left plate }, rod: { name: Rod } }\n"
  expect(namesOf(yaml)).toEqual(["garden-arm", "tube-a", "Arm", "long-plate", "Left plate"])
})

test("no source, partial or style holds an id or a title of a kit in guides", () => {
  const names = kitFolders
    .filter((folder) => folder.startsWith("guides/"))
    .flatMap((folder) => readKitFiles(folder).flatMap(({ bytes }) => namesOf(Buffer.from(bytes).toString("utf8"))))
  expect(names.length).toBeGreaterThan(30)
  const sources = [
    ...sourceFiles("src", ".ts", ".mjs", ".json"),
    ...sourceFiles("partials", ".hbs", ".html"),
    ...sourceFiles("styles", ".css"),
  ]
  const wired = sources.flatMap(({ path, text }) =>
    names.filter((name) => holdsWord(text, name)).map((name) => `${path} holds \`${name}\``),
  )
  expect(wired).toEqual([])
})

function holdsWord(text: string, word: string): boolean {
  const escaped = word.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")
  return new RegExp(`(?<![\\w-])${escaped}(?![\\w-])`, "i").test(text)
}
