/** Names that nothing has, ids twice, circles, things that need each other. */
import type { Place, Places } from "../../../src/findings/types.ts"
import type { Kit } from "../../../src/kit/types.ts"
import { nameAct, withVerb, writtenActs } from "../acts.ts"
import type { CleanVariant } from "../clean-kits.ts"
import { addEntry, insertAt, overwrite, pathNow, replaceEntry, rewriteAct, textAt } from "../draft.ts"
import { marks, type Operator, type Plant } from "../plant.ts"

/** Values that name another thing, by the end of their path. */
const references =
  /^(joints\/[^/]+\/(through\/\d+|into|holes\/in\/\d+)|ties\/[^/]+\/(holds\/\d+|round|slot\/in)|pads\/[^/]+\/on|passages\/[^/]+\/in|cables\/[^/]+\/via\/\d+|(parts|joints|ties|pads)\/[^/]+\/bag|parts\/[^/]+\/covers\/\d+|hazards\/[^/]+\/at\/\d+|steps\/[^/]+\/do\/\d+\/[a-z-]+\/(what|to|through|from))$/

/** A reference gets two letters more: nothing has that name, and no name is near enough to be meant for sure. */
const nameUnknown: Operator = {
  name: "name-unknown",
  faults: ["F50"],
  find: (variant) => {
    const { kit } = variant.proof
    return Object.keys(kit.places).flatMap((path): readonly Plant[] => {
      const place = kit.places[path]
      if (place === undefined || !references.test(path) || !isOneName(kit.places, path)) return []
      const isBag = path.endsWith("/bag")
      // A key that stands for its value, and bags where none are declared.
      if (textInPlace(variant, place) === path.split("/").at(-1) || (isBag && kit.places.bags === undefined)) return []
      const owner = path
        .split("/")
        .slice(0, path.startsWith("steps/") ? 4 : 3)
        .join("/")
      return [
        {
          site: path,
          edit: (draft) => insertAt(draft, place.file, offsetBehind(draft.files, place), "xq"),
          expect: () => [marks("unknown-name", path, owner)],
        },
      ]
    })
  },
}

function textInPlace({ files }: CleanVariant, place: Place): string {
  return textAt({ files }, place)
}

/** Words that stand for no thing (`all`, `10 min`, a sentence) are no names. */
function isOneName(places: Places, path: string): boolean {
  return !/\/(wait|inspect|turn)\//.test(path) && places[path] !== undefined
}

function offsetBehind(
  files: readonly { readonly path: string; readonly text: string }[],
  place: { readonly file: string; readonly endLine: number; readonly endColumn: number },
): number {
  const text = files.find(({ path }) => path === place.file)?.text ?? ""
  return (
    text
      .split("\n")
      .slice(0, place.endLine - 1)
      .join("\n").length +
    (place.endLine > 1 ? 1 : 0) +
    place.endColumn -
    1
  )
}

/** A link in a text names nothing. */
const linkUnknown: Operator = {
  name: "link-unknown",
  faults: ["F50"],
  find: ({ proof: { kit } }) =>
    textPaths(kit).flatMap((path): readonly Plant[] => {
      const place = kit.places[path]
      if (place === undefined) return []
      return [
        {
          site: path,
          edit: (draft) => {
            const text = textAt(draft, place)
            const match = /\]\([a-z]+:[^)]+/.exec(text)
            if (match !== null) overwrite(draft, place, text.replace(match[0], `${match[0]}xq`))
          },
          expect: (draft) => (/\]\([a-z]+:[^)]+/.test(textAt(draft, place)) ? [marks("unknown-reference", path)] : []),
        },
      ]
    }),
}

/** A torque is typed into the text of the step that tightens, ten times as high. */
const torqueTyped: Operator = {
  name: "torque-typed-in-text",
  faults: ["F33"],
  find: ({ proof: { kit, fit } }) =>
    kit.steps.flatMap((step): readonly Plant[] => {
      const path = `${step.path}/text`
      const place = kit.places[path]
      const torques = step.acts.flatMap(
        ({ target }) => fit.joints.find(({ joint }) => joint === target)?.torque.valueNm ?? [],
      )
      if (place === undefined || torques.length === 0) return []
      const link = /\[[^\]]*\]\(torque:[a-z0-9.-]+\)/
      const wrong = `${Math.round(Math.max(...torques) * 10)} N·m`
      return [
        {
          site: step.id,
          edit: (draft) => overwrite(draft, place, textAt(draft, place).replace(link, wrong)),
          expect: (draft) => (link.test(textAt(draft, place)) ? [marks("typed-number-differs", path)] : []),
        },
      ]
    }),
}

/** A text still has a mark where something was to be filled in. */
const placeholderLeft: Operator = {
  name: "placeholder-left",
  faults: ["F60"],
  find: ({ proof: { kit } }) =>
    kit.steps.flatMap(({ id, path }): readonly Plant[] => {
      const place = kit.places[`${path}/text`]
      if (place === undefined) return []
      return [
        {
          site: id,
          edit: (draft) => overwrite(draft, place, textAt(draft, place).replace(/\.(\s*)$/, ", TODO.$1")),
          expect: () => [marks("placeholder-in-text", `${path}/text`)],
        },
      ]
    }),
}

function textPaths(kit: Kit): readonly string[] {
  return kit.steps
    .flatMap(({ path }) => [`${path}/text`, `${path}/result`])
    .filter((path) => kit.places[path] !== undefined)
}

/** A step is copied with its id. */
const stepTwice: Operator = {
  name: "step-id-twice",
  faults: ["F51"],
  find: ({ proof: { kit } }) =>
    kit.steps
      .filter(({ path }) => kit.places[path]?.file === "kit.yaml")
      .map(
        ({ id }): Plant => ({
          site: id,
          edit: (draft) => {
            const text = draft.files.find((file) => file.path === "kit.yaml")?.text ?? ""
            insertAt(
              draft,
              "kit.yaml",
              text.length,
              `${text.endsWith("\n") ? "" : "\n"}  ${id}:\n    do: [inspect: all]\n`,
            )
          },
          expect: () => [[{ rule: "duplicate-key", at: "", line: `  ${id}:` }]],
        }),
      ),
}

/** A step must come after one that needs it. */
const circle: Operator = {
  name: "circle",
  faults: ["F61"],
  find: ({ proof: { kit, sequence } }) =>
    sequence.links.flatMap(({ from, to, kind }): readonly Plant[] => {
      const file = kit.places[`steps/${from}`]?.file
      const hasOne = kit.places[`steps/${from}/needs-after`] !== undefined
      if (file === undefined || hasOne || kit.places[`steps/${to}`]?.file !== file) return []
      return [
        {
          site: `${from} after ${to} (${kind})`,
          edit: (draft) => addEntry(draft, file, ["steps", from], `needs-after: ${to}`),
          expect: () => [
            [
              ...marks("order-is-circular", `steps/${from}`, `steps/${to}`),
              // What another act can give as well, or give again, forbids no order: then the declared one is broken.
              ...marks("declared-order-broken", `steps/${from}/needs-after`),
            ],
          ],
        },
      ]
    }),
}

/** A step must come after itself. */
const afterItself: Operator = {
  name: "step-after-itself",
  faults: ["F61"],
  find: ({ proof: { kit } }) =>
    kit.steps.flatMap(({ id, path }): readonly Plant[] => {
      const file = kit.places[path]?.file
      if (file === undefined || kit.places[`${path}/needs-after`] !== undefined) return []
      return [
        {
          site: id,
          edit: (draft) => addEntry(draft, file, ["steps", id], `needs-after: ${id}`),
          expect: () => [marks("order-is-circular", path)],
        },
      ]
    }),
}

/** An end that must go through a closed opening cannot be taken off. */
const endFixed: Operator = {
  name: "fed-end-fixed",
  faults: ["F05", "F62"],
  find: (variant) => {
    const { kit } = variant.proof
    const feeds = withVerb(writtenActs(variant), "feed")
    return feeds.flatMap((feed): readonly Plant[] => {
      const isClosed = kit.passages.some(({ id, isClosed }) => id === feed.act.through && isClosed)
      const cable = kit.cables.find(({ ends }) => ends.some(({ id }) => id === feed.act.target))
      const place = kit.places[`${cable?.path ?? ""}/ends/${feed.act.target.split(".")[1] ?? ""}`]
      if (!isClosed || place === undefined) return []
      const file = place.file
      const path = `${cable?.path ?? ""}/ends/${feed.act.target.split(".")[1] ?? ""}`.split("/")
      return [
        {
          site: nameAct(feed),
          edit: (draft) => replaceEntry(draft, file, path, "fixed"),
          expect: (draft) => [
            marks(
              "nobody-gives",
              ...feeds.filter(({ act }) => act.target === feed.act.target).map(({ origin }) => pathNow(draft, origin)),
            ),
          ],
        },
      ]
    })
  },
}

/** An act says less than it needs, or names no thing of its kind. */
const actWithoutTarget: Operator = {
  name: "act-of-wrong-kind",
  faults: ["F50"],
  find: (variant) => {
    const { kit } = variant.proof
    const part = kit.parts[0]?.id
    return withVerb(writtenActs(variant), "start", "tighten", "strap", "stick").flatMap((one): readonly Plant[] => {
      const isNamedAlike = [...kit.joints, ...kit.ties, ...kit.pads].some(({ id }) => id === part)
      if (part === undefined || isNamedAlike) return []
      return [
        {
          site: nameAct(one),
          edit: (draft) => rewriteAct(draft, one.origin, (text) => text.replace(one.act.target, part)),
          expect: (draft) => [marks("unknown-name", pathNow(draft, one.origin))],
        },
      ]
    })
  },
}

/** All operators on names and structure. */
export const nameOperators: readonly Operator[] = [
  nameUnknown,
  linkUnknown,
  torqueTyped,
  placeholderLeft,
  stepTwice,
  circle,
  afterItself,
  endFixed,
  actWithoutTarget,
]
