/** Stages that take no time, so that a test meets the writing and swapping of a build and little else. */

/** What `generation` of a kit would print: every file holds nothing but its number. */
export function makeStubStages(generation, variants = ["one", "two", "three"], severityOf = () => undefined) {
  const index = { kitTitle: "Stub", variantTitle: "Stub", fitsWords: "", revision: "A" }
  const files = Array.from({ length: 12 }, (_, number) => `drawings/${number}.svg`)
  const where = { file: "kit.yaml", path: [], line: 1, column: 1, endLine: 1, endColumn: 1 }
  return {
    prove: () => ({
      findings: [],
      proofs: variants.map((id) => {
        const severity = severityOf(id)
        const fault = { id: "planted", severity, message: "planted", where, related: [], subjects: [], variants: [id] }
        return { kit: makeKit(id, generation()), findings: severity === undefined ? [] : [fault] }
      }),
    }),
    draw: () => ({ drawings: {}, findings: [] }),
    publish: () => ({
      pages: [{ path: "guide.html", html: fill(generation()) }],
      prints: [
        { path: "guide.a4.pdf", job: { html: fill(generation()), name: "a4", widthMm: 210, heightMm: 297, date: "" } },
      ],
      drawings: files.map((path) => ({ path, svg: fill(generation()) })),
      index,
    }),
    describe: () => index,
    index: (entries) => JSON.stringify(entries, null, 2),
    openPrinter: async () => ({
      browser: "Stub 1",
      print: async ({ html }) => Buffer.from(html),
      close: async () => undefined,
    }),
  }
}

const fill = (generation) => `${generation}\n`.repeat(4000)

/** `2 B` is content 2 under revision B; a plain number is a revision of its own. */
const revisionOf = (generation) => `${generation}`.split(" ")[1] ?? `A${generation}`

/** A kit without things: enough for hashing and reporting. */
function makeKit(variant, generation) {
  const lists = "assemblies parts units frames instances joints ties pads cables passages hazards steps"
  return {
    ...Object.fromEntries(lists.split(" ").map((name) => [name, []])),
    id: "stub",
    title: `Stub ${String(generation).split(" ")[0]}`,
    variant: { id: variant, title: variant, axes: {} },
    places: { "": { file: "kit.yaml", path: [], line: 1, column: 1, endLine: 1, endColumn: 1 } },
    identity: { revision: { id: revisionOf(generation), date: "2026-03-02", guide: "" }, languages: [] },
    limits: { others: [] },
    meshes: {},
  }
}
