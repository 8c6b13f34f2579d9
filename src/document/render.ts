/** Handlebars with the strictness that documents need: what a partial asks for must be there, else the tool is at fault. */
import Handlebars from "handlebars"
import type { Assets } from "./types.ts"

/** Markup that our own code made (drawings, filled texts); the one way to get markup past escaping. */
export type Html = { readonly html: string }

/** Plain data a partial may see; `null` stands for "not there". */
export type View = Readonly<Record<string, unknown>>

type Template = (view: View) => string

const compiled = new WeakMap<Assets["partials"], (name: string) => Template>()

/** Renders one partial by name. Throws when the partial, or a value it asks for, is missing: a fault of ours. */
export function renderPartial(assets: Assets, name: string, view: View): string {
  let find = compiled.get(assets.partials)
  if (find === undefined) {
    find = prepare(assets.partials)
    compiled.set(assets.partials, find)
  }
  return find(name)(view)
}

function prepare(partials: Assets["partials"]): (name: string) => Template {
  const engine = Handlebars.create()
  engine.registerHelper("html", (value: unknown) => {
    if (!isHtml(value)) throw new Error("a partial prints something as markup that our code did not make")
    return new engine.SafeString(value.html)
  })
  // The built-in `if` and `each` take a missing value for false and empty; these do not.
  engine.registerHelper("if", function (this: unknown, value: unknown, options: Handlebars.HelperOptions) {
    if (value === undefined) throw new Error("a partial asks whether a value is there that no view has")
    return value === null || value === false || value === "" ? options.inverse(this) : options.fn(this)
  })
  engine.registerHelper("each", (value: unknown, options: Handlebars.HelperOptions) => {
    if (!Array.isArray(value)) throw new Error("a partial goes through a list that no view has")
    return value.map((item) => options.fn(item)).join("")
  })
  // Prints text in which the designations of `glued` at the root of the view, with their item reference, are not broken.
  engine.registerHelper("say", (text: unknown, options: Handlebars.HelperOptions) => {
    const glued: unknown = options.data?.root?.glued
    if (typeof text !== "string" || !Array.isArray(glued)) throw new Error("a partial says something that no view has")
    return new engine.SafeString(keepTogether(engine.escapeExpression(text), glued.map(engine.escapeExpression)))
  })
  const options = { strict: true, preventIndent: true, knownHelpersOnly: false }
  for (const [name, source] of Object.entries(partials)) engine.registerPartial(name, engine.compile(source, options))
  const templates = new Map<string, Template>()
  return (name) => {
    const source = partials[name]
    if (source === undefined) throw new Error(`partial \`${name}\` is missing`)
    const template = templates.get(name) ?? engine.compile(source, options)
    templates.set(name, template)
    return template
  }
}

function keepTogether(html: string, glued: readonly string[]): string {
  if (glued.length === 0) return html
  const longestFirst = [...glued].sort((one, other) => other.length - one.length)
  const pattern = longestFirst.map((words) => words.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")).join("|")
  return html.replace(
    new RegExp(`(?:${pattern})(?:\u00a0\\(\\d+\\))?`, "g"),
    (words) => `<span class="filled">${words}</span>`,
  )
}

function isHtml(value: unknown): value is Html {
  return typeof value === "object" && value !== null && "html" in value && typeof value.html === "string"
}
