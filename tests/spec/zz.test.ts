import { readdirSync, readFileSync } from "node:fs"
import { test } from "vitest"
import { loadSpecs } from "../../src/spec/index.ts"
import { parseText } from "../../src/text/parse.ts"
import { told } from "./kit.ts"

test("x", () => {
  const root = "guides/pump-cradle/"
  const files = ["kit.yaml", ...readdirSync(root + "variants").map((n) => "variants/" + n)].map((path) => ({
    path,
    bytes: new TextEncoder().encode(
      readFileSync(root + path, "utf8").replace(
        "[cheek-left, cheek-right], depth: 12",
        "cheek-left and cheek-right, depth: 12",
      ),
    ),
  }))
  const t = performance.now()
  const r = loadSpecs(files)
  console.log(performance.now() - t, "ms")
  console.log(
    told(r.findings),
    r.value.map((s) => s.variant),
  )
  for (const s of r.value)
    for (const st of s.steps)
      for (const x of [st.text, st.result, ...st.caution])
        if (x) {
          const p = parseText(x)
          if (p.findings.length) console.log(told(p.findings))
          if (s === r.value[0])
            console.log(
              p.value.numbers.map((n) => [n.written, n.value, n.unit, n.where.line, n.where.column]).join("  "),
              p.value.references
                .map((q) => `${q.kind}:${q.target}@${q.where.line}:${q.where.column}-${q.where.endColumn}`)
                .join(" "),
            )
        }
})
