import { expect, test } from "vitest"
import { builtLanguages } from "../../src/checks/language-not-built.ts"
import { wordTables } from "../../src/document/index.ts"

test("the languages of the rule are those with words", () => {
  expect([...builtLanguages].sort()).toEqual(Object.keys(wordTables).sort())
})
