/** Judges whether a step does anything that can be checked. */
import { placeAt } from "../findings/places.ts"
import { defineRule } from "./types.ts"

/** Finds steps that have a text but no act. */
export const stepWithoutAction = defineRule({
  id: "step-without-action",
  severity: "warning",
  source: "practice: what a step does is written as acts, so that its place in the order can be proved",
  check: ({ kit }) => {
    const written = new Set(
      Object.keys(kit.places).flatMap((key) => /^(steps\/[^/]+)\/do\/\d+$/.exec(key)?.slice(1) ?? []),
    )
    return (
      kit.steps
        // Acts that were left out are told already.
        .filter(({ acts, path }) => acts.length === 0 && !written.has(path))
        .map(({ id, path }) => ({
          message: `step \`${id}\` has no act`,
          where: placeAt(kit.places, path),
          why: "Only acts are proved; a text alone may stand anywhere.",
          fix: "Say in `do:` what the step does; a look is `inspect`, a pause is `wait`.",
          subjects: [id],
        }))
    )
  },
})
