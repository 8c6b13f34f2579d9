/** The files that documents are put together from: partials, styles and fonts of this package. */
import { existsSync, readdirSync, readFileSync } from "node:fs"
import { basename, dirname, extname, join } from "node:path"
import { fileURLToPath } from "node:url"
import type { Assets } from "../document/types.ts"

/**
 * Characters that each font file holds, as its publisher lists them: `unicode.json` of the npm package
 * `@fontsource/noto-sans` 5.3.0, from which the files in `styles/fonts` are copied.
 */
const characterRanges: Readonly<Record<string, string>> = {
  latin:
    "U+0000-00FF,U+0131,U+0152-0153,U+02BB-02BC,U+02C6,U+02DA,U+02DC,U+0304,U+0308,U+0329,U+2000-206F,U+20AC,U+2122,U+2191,U+2193,U+2212,U+2215,U+FEFF,U+FFFD",
  "latin-ext":
    "U+0100-02BA,U+02BD-02C5,U+02C7-02CC,U+02CE-02D7,U+02DD-02FF,U+0304,U+0308,U+0329,U+1D00-1DBF,U+1E00-1E9F,U+1EF2-1EFF,U+2020,U+20A0-20AB,U+20AD-20C0,U+2113,U+2C60-2C7F,U+A720-A7FF",
}

/** Folder of this package, with `partials` and `styles`: the nearest one above this file that has a `package.json`. */
export function findPackageFolder(): string {
  let folder = dirname(fileURLToPath(import.meta.url))
  while (!existsSync(join(folder, "package.json"))) folder = dirname(folder)
  return folder
}

/** Version of this package. */
export function readPackageVersion(): string {
  // Our own file; npm refuses a package without a version.
  const { version } = JSON.parse(readFileSync(join(findPackageFolder(), "package.json"), "utf8")) as { version: string }
  return version
}

/**
 * Reads partials, styles and fonts: the compiled program those that were copied beside it when it was compiled, so
 * that they always belong to its code; the sources those of the repository. Names are file names without ending.
 */
export function readAssets(): Assets {
  const compiled = fileURLToPath(new URL("..", import.meta.url))
  const folder = existsSync(join(compiled, "partials")) ? compiled : findPackageFolder()
  return {
    partials: readTexts(join(folder, "partials"), ".hbs"),
    styles: readTexts(join(folder, "styles"), ".css"),
    fontCss: readFontCss(join(folder, "styles", "fonts")),
  }
}

function readTexts(folder: string, ending: string): Readonly<Record<string, string>> {
  const names = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) => extname(name) === ending)
  return Object.fromEntries(
    names.sort().map((name) => [basename(name, ending), readFileSync(join(folder, name), "utf8")]),
  )
}

/** One `@font-face` for each file `noto-sans-<characters>-<weight>-<style>.woff2`, the font inside it. */
function readFontCss(folder: string): string {
  const faces = readdirSync(folder)
    .sort()
    .flatMap((name) => {
      const [, characters = "", weight = "", style = ""] = /^noto-sans-(.+)-(\d+)-(\w+)\.woff2$/.exec(name) ?? []
      const range = characterRanges[characters]
      if (range === undefined) return []
      const font = readFileSync(join(folder, name)).toString("base64")
      return [
        `@font-face{font-family:"Noto Sans";font-style:${style};font-weight:${weight};font-display:block;` +
          `src:url(data:font/woff2;base64,${font}) format("woff2");unicode-range:${range}}`,
      ]
    })
  return faces.join("\n")
}
