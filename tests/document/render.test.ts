import { expect, test } from "vitest"
import { renderPartial } from "../../src/document/render.ts"
import type { Assets } from "../../src/document/types.ts"
import { readAssets } from "./fixture.ts"

function render(source: string, view: Record<string, unknown>): string {
  const assets: Assets = { partials: { page: source }, styles: {}, fontCss: "" }
  return renderPartial(assets, "page", view)
}

test("a missing value, list, condition or partial is a fault", () => {
  for (const source of [
    "{{torqe}}",
    "{{a.torqe}}",
    "{{#if torqe}}x{{/if}}",
    "{{#each torqe}}x{{/each}}",
    "{{> torqe}}",
    "{{html torqe}}",
  ]) {
    expect(() => render(source, { a: {} })).toThrow()
  }
  expect(() => renderPartial({ partials: {}, styles: {}, fontCss: "" }, "page", {})).toThrow("page")
})

test("null, false and empty text are not there; zero is", () => {
  const source = "{{#if value}}yes{{else}}no{{/if}}"
  expect([null, false, "", 0, "x"].map((value) => render(source, { value }))).toEqual(["no", "no", "no", "yes", "yes"])
})

test("text is escaped; only markup of our own code passes", () => {
  expect(render("{{value}}", { value: "<b>&\"'" })).toBe("&lt;b&gt;&amp;&quot;&#x27;")
  expect(render("{{html value}}", { value: { html: "<b>x</b>" } })).toBe("<b>x</b>")
  expect(() => render("{{html value}}", { value: "<b>" })).toThrow()
})

test("no partial uses the unescaped form or an unquoted attribute", () => {
  for (const [name, source] of Object.entries(readAssets().partials)) {
    expect(source, name).not.toContain("{{{")
    expect(source, name).not.toMatch(/=\{\{/)
  }
})
