/** Many pictures on one sheet, each with its name under it. */
import { createCanvas, type Image } from "@napi-rs/canvas"

/** A picture with the words under it. */
export type Named = { readonly name: string; readonly image: Image }

const gap = 14
const captionHeight = 18

/** Puts pictures in rows of `columns`, on grey, so that the edges of white pages show. Gives a PNG. */
export function makeContactSheet(pictures: readonly Named[], columns: number): Buffer {
  const rows: Named[][] = []
  for (let index = 0; index < pictures.length; index += columns) rows.push(pictures.slice(index, index + columns))
  const cellWidth = Math.max(1, ...pictures.map(({ image }) => image.width)) + gap
  const heights = rows.map((row) => Math.max(...row.map(({ image }) => image.height)) + captionHeight + gap)
  const canvas = createCanvas(
    cellWidth * Math.min(columns, pictures.length) + gap,
    heights.reduce((sum, height) => sum + height, gap),
  )
  const context = canvas.getContext("2d")
  context.fillStyle = "#b8b8b8"
  context.fillRect(0, 0, canvas.width, canvas.height)
  context.font = "13px sans-serif"
  let top = gap
  for (const [index, row] of rows.entries()) {
    for (const [column, { name, image }] of row.entries()) {
      const left = gap + column * cellWidth
      context.fillStyle = "#ffffff"
      context.fillRect(left, top, image.width, image.height)
      context.drawImage(image, left, top)
      context.fillStyle = "#000000"
      context.fillText(name, left, top + image.height + 14)
    }
    top += heights[index] ?? 0
  }
  return canvas.toBuffer("image/png")
}
