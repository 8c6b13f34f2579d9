import { expect, test } from "vitest"
import { sourceFiles } from "./source-files.ts"

/** String and template literals given to `message:` in the sources, with `${...}` shortened to one letter. */
function messages(): readonly { readonly at: string; readonly text: string }[] {
  return sourceFiles("src", ".ts").flatMap(({ path, text }) =>
    [...text.matchAll(/\bmessage(?: =|:)\s*(?:`((?:\\.|[^`\\])*)`|"((?:\\.|[^"\\])*)")/g)].map((match) => ({
      at: `${path}:${text.slice(0, match.index).split("\n").length}`,
      text: (match[1] ?? match[2] ?? "").replace(/\$\{[^{}]*(\{[^{}]*\}[^{}]*)*\}/g, "x").replaceAll("\\`", "`"),
    })),
  )
}

const forbidden = /\b(invalid|illegal|failed|error|unexpected|please|sorry|oops|undefined|null value|NaN)\b/i
const ofLibraries =
  /Expected .*received|Unrecognized key|must be .* schema|ENOENT|EACCES|Cannot read propert|is not a function|Unresolved alias|at Object\./i

test("messages are found at all", () => {
  expect(messages().length).toBeGreaterThan(20)
})

test.each([
  ["starts with a capital", (text: string) => /^[A-Z][a-z]/.test(text)],
  ["ends with a full stop", (text: string) => text.endsWith(".")],
  ["is longer than 100 characters", (text: string) => text.length > 100],
  ["uses a word that blames or says nothing", (text: string) => forbidden.test(text)],
  ["uses the wording of a library", (text: string) => ofLibraries.test(text)],
])("no message %s", (_, isBad) => {
  expect(
    messages()
      .filter(({ text }) => isBad(text))
      .map(({ at, text }) => `${at} ${text}`),
  ).toEqual([])
})
