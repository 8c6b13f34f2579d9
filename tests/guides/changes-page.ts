/** One page that shows changed outputs of whole kits: drawings side by side and laid over each other, texts by lines. */

/** An output before and now; empty when it was not there, or no longer is. */
export type Change = { readonly name: string; readonly before: string; readonly now: string }

/** Gives the HTML of the page. */
export function renderChanges(changes: readonly Change[]): string {
  return `<!doctype html><meta charset="utf-8"><title>Changed outputs</title>
<style>
body { font: 14px/1.4 sans-serif; margin: 1em }
.pair { display: flex; gap: 1em; align-items: start }
.pair img { width: 32%; border: 1px solid #999; background: #fff }
.over { position: relative; width: 32%; border: 1px solid #999 }
.over img { width: 100%; border: 0; display: block; background: #fff }
.over img + img { position: absolute; top: 0; left: 0; mix-blend-mode: difference }
del { background: #fdd; display: block; text-decoration: none } ins { background: #dfd; display: block; text-decoration: none }
</style>
<h1>${changes.length} changed</h1>
<p>Before, now, and the difference (black where nothing changed). <code>npm run accept</code> takes all of it over.</p>
${changes.map(renderChange).join("\n")}
`
}

function renderChange({ name, before, now }: Change): string {
  const shown = name.endsWith(".svg") ? showPictures(before, now) : showLines(before.split("\n"), now.split("\n"))
  return `<h2>${escapeText(name)}</h2>\n${shown}`
}

function showPictures(before: string, now: string): string {
  const [one, other] = [before, now].map((svg) =>
    svg === "" ? "" : `<img alt="" src="data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}">`,
  )
  return `<div class="pair">${one}${other}<div class="over">${one}${other}</div></div>`
}

/** Lines that only one of the two has, in their order. */
function showLines(before: readonly string[], now: readonly string[]): string {
  const [gone, fresh] = [
    [before, now],
    [now, before],
  ].map(([lines = [], others = []]) => {
    const left = [...others]
    return lines.filter((line) => {
      const index = left.indexOf(line)
      if (index >= 0) left.splice(index, 1)
      return index < 0
    })
  })
  const mark = (tag: string, lines: readonly string[] = []): string =>
    lines.map((line) => `<${tag}>${escapeText(line)}</${tag}>`).join("")
  const moved = gone?.length === 0 && fresh?.length === 0 ? "<p>The same lines in another order.</p>" : ""
  return `${mark("del", gone)}${mark("ins", fresh)}${moved}`
}

function escapeText(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;")
}
