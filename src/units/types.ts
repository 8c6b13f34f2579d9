/** What a number in a spec can measure. Base units: mm, deg, N, N*m, kg, min, degC, mm2, %; a count has none. */
export type Dimension = "length" | "angle" | "force" | "torque" | "mass" | "duration" | "temperature" | "area" | "share"
