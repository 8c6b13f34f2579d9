/** Line drawings of a kit as data, and as SVG. */
export { drawKit, reviewDrawings } from "./draw-kit.ts"
export { renderSvg } from "./svg.ts"
