/** What a reader sees of a page, as lines. */

/** Gives the visible text of an HTML page, one line a block, without drawings. */
export function listLines(html: string): readonly string[] {
  return html
    .replace(/<(style|svg)[\s\S]*?<\/\1>/g, "")
    .replace(/<\/(p|li|td|th|tr|h\d|dt|dd|div|figcaption|caption|section|header|footer|title|summary)>|<br>/g, "\n")
    .replace(/<[^>]+>/g, " ")
    .split("\n")
    .map((line) => line.replace(/\s+/g, " ").trim())
    .filter((line) => line !== "")
}
