/** How the texts of the demo kits read where a reference stands in a sentence. */
import { readdirSync, readFileSync } from "node:fs"
import { expect, test } from "vitest"

const files = readdirSync("guides", { recursive: true, encoding: "utf8" }).filter((file) => file.endsWith(".yaml"))

test.each(files)("%s: no count of its own stands before a joint, whose reference has one", (file) => {
  // A bare joint becomes `4 × cap screw ...`; after "all four" or "the" it needs a word: `all four [screws](joint:foot)`.
  const doubled = /\b(?:the|all|both|each|one|two|three|four|five|six|eight)\s+\[\]\(joint:[^)]*\)/gi
  expect(readFileSync(`guides/${file}`, "utf8").match(doubled)).toBeNull()
})
