/** Line drawings of a kit as data, and as SVG. */
export { type DrawRequest, drawKit } from "./draw-kit.ts"
export { lineStyles } from "./line-widths.ts"
export { renderSvg } from "./svg.ts"
