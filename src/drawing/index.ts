/** Line drawings of a kit as data, and as SVG. */
export { drawKit } from "./draw-kit.ts"
export { renderSvg } from "./svg.ts"
