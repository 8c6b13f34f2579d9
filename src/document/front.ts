/** Page 1, stop or go: right kit, right frame, what is needed, what must be true before a bag is opened. */
import type { Kit } from "../kit/types.ts"
import { sayStops } from "./advice.ts"
import { type Context, sayTool } from "./context.ts"
import { type FigureView, viewOverview } from "./figures.ts"
import { sayLimits } from "./limits.ts"
import { renderMakerText } from "./maker-text.ts"
import { sayName, startLine } from "./names.ts"
import type { Html } from "./render.ts"
import { type MessageView, sortHazards, viewHazard } from "./safety.ts"
import type { Words } from "./words/types.ts"

export type CheckView = { readonly statement: string; readonly otherwise: string }

export type FrontView = {
  readonly title: string
  readonly variant: string
  readonly limits: readonly string[]
  readonly hasLimits: boolean
  readonly overview: FigureView
  readonly checks: readonly CheckView[]
  /** All tools, and persons and time, as one sentence each. */
  readonly tools: string
  readonly resources: string
  /** Where the work may be left, when not everywhere. */
  readonly stops: string | null
  readonly worst: readonly MessageView[]
  readonly hasWorst: boolean
  readonly invented: string | null
  readonly translated: string | null
  /** Kit, variant, revision and who answers for it, in one line. */
  readonly identity: string
}

/** Makes page 1. At most two hazards stand there; the rest is in the safety section. */
export function viewFront(context: Context): FrontView {
  const { kit, words } = context
  const { identity } = kit
  const worst = sortHazards(kit.hazards).filter((hazard) => hazard.signalWord !== "notice")
  const isTranslated = words.language !== context.makerLanguage
  const limits = sayLimits(kit, words)
  return {
    title: kit.title,
    variant: kit.variant.title,
    limits,
    hasLimits: limits.length > 0,
    overview: viewOverview(context),
    checks: viewChecks(context),
    tools: startLine(words.list(listToolNames(context))),
    resources: words.front.resources(
      identity.persons,
      identity.minutes === undefined ? undefined : words.measures.duration(identity.minutes),
    ),
    stops: sayStops(context) ?? null,
    hasWorst: worst.length > 0,
    worst: worst.slice(0, 2).map((hazard) => viewHazard(context, hazard)),
    invented: identity.isInvented ? words.front.invented : null,
    translated: isTranslated ? words.front.translated(nameLanguage(words, context.makerLanguage)) : null,
    identity: sayIdentity(context),
  }
}

/** What identifies the document, and who answers for it. */
export function sayIdentity({ kit, words }: Pick<Context, "kit" | "words">): string {
  const { revision, supplier } = kit.identity
  const document = words.about.document(
    kit.id,
    kit.variant.id,
    revision.id,
    revision.date,
    nameLanguage(words, words.language),
  )
  const who = saySupplier(supplier)
  return who === "" ? document : `${document} ${words.front.other(words.labels.supplier, who)}.`
}

/** Name, address and contact of who sells the kit, as far as they are written. */
export function saySupplier({ name, address, contact }: Kit["identity"]["supplier"]): string {
  return [name, address, contact].filter((line) => line !== "").join(", ")
}

/** Statements that must be true before a bag is opened, each with what to do otherwise. */
export function viewChecks(context: Context): readonly CheckView[] {
  const { kit, words } = context
  const { front, measures } = words
  const { tube, tubeMm, loadKg, temperatureC } = kit.limits
  const checks: CheckView[] = []
  if (tubeMm !== undefined) {
    const statement = front.checkTube(tube, measures.range(tubeMm, measures.mm))
    checks.push({ statement, otherwise: front.checkTubeNot })
  }
  for (const unit of kit.units) {
    if (unit.model === undefined) continue
    const statement = front.checkUnit(sayName(context, unit.id, ["unit"]), unit.model, unit.revision)
    checks.push({ statement, otherwise: front.checkUnitNot })
  }
  if (loadKg !== undefined) {
    checks.push({ statement: front.checkLoad(measures.kg(loadKg)), otherwise: front.checkLoadNot })
  }
  if (temperatureC !== undefined) {
    const statement = front.checkTemperature(measures.range(temperatureC, measures.celsius))
    checks.push({ statement, otherwise: front.checkTemperatureNot })
  }
  return [...checks, { statement: front.checkBox, otherwise: front.checkBoxNot }]
}

/** Names of all tools, computed and declared, each once. */
function listToolNames(context: Context): readonly string[] {
  const computed = context.fit.tools.map((tool) => sayTool(context, tool))
  return [...new Set([...computed, ...context.kit.tools.map((tool) => sayName(context, tool.id, ["tool"]))])]
}

/** Intended use, limits and what the place of use may be like. */
export function viewUse(context: Context): {
  readonly intended: Html
  readonly notFor: Html | null
  readonly limits: readonly string[]
  readonly hasLimits: boolean
  readonly environment: string | null
  readonly unitFacts: readonly { readonly label: string; readonly text: Html }[]
} {
  const { kit, words } = context
  const { identity, environment } = kit
  const { environment: names, unitFacts } = words.front
  const limits = sayLimits(kit, words)
  // Of several units each fact names its own.
  const labelOf = (unit: string, fact: string): string => (kit.units.length === 1 ? fact : `${unit}: ${fact}`)
  const stands = (["sun", "wet", "salt", "vibration"] as const)
    .filter((name) => environment[name])
    .map((name) => names[name])
  return {
    intended:
      identity.intendedUse === undefined
        ? { html: `<p>${words.front.noUse}</p>` }
        : renderMakerText(context, identity.intendedUse),
    notFor: identity.notFor === undefined ? null : renderMakerText(context, identity.notFor),
    limits,
    hasLimits: limits.length + stands.length > 0,
    environment: stands.length === 0 ? null : words.front.other(names.heading, words.list(stands)),
    unitFacts: kit.units.flatMap((unit) => [
      ...(unit.earth === undefined
        ? []
        : [{ label: labelOf(unit.name, unitFacts.earth), text: renderMakerText(context, unit.earth) }]),
      ...(unit.cooling === undefined
        ? []
        : [{ label: labelOf(unit.name, unitFacts.cooling), text: renderMakerText(context, unit.cooling) }]),
    ]),
  }
}

/** Name of a language in the words of another: `German`. */
function nameLanguage(words: Words, tag: string): string {
  return new Intl.DisplayNames(words.language, { type: "language" }).of(tag) ?? tag
}
