/** Judges whether every language that the kit names has its documents. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"

/** Languages with a table of words for the documents. */
export const builtLanguages: readonly string[] = ["en", "de"]

/** Finds languages that no document is built in: documents have one language, the first that there are words for. */
export const languageNotBuilt = defineRule({
  id: "language-not-built",
  severity: "note",
  source: "practice: a promised language is looked for",
  check: ({ kit }) => {
    const { languages } = kit.identity
    const built = languages.find((language) => builtLanguages.includes(language)) ?? "en"
    const missing = languages.filter((language) => language !== built)
    const [first] = missing
    if (first === undefined) return []
    const names = missing.map((language) => `\`${language}\``).join(", ")
    return [
      {
        message: `documents are built in \`${built}\`, not in ${names}`,
        where: placeAt(kit.places, "languages", String(languages.indexOf(first))),
        why: "The texts of the kit are written in one language; they cannot be translated here yet.",
        fix: `Write \`languages: ${built}\`, and make a kit of its own for another language.`,
        subjects: missing,
      },
    ]
  },
})
