/** What to call a value in a finding: `` `torque` of joint `foot` ``. */

const nouns: Readonly<Record<string, string>> = {
  parts: "part",
  assemblies: "assembly",
  joints: "joint",
  cables: "cable",
  passages: "passage",
  ties: "tie",
  pads: "pad",
  bags: "bag",
  tools: "tool",
  consumables: "consumable",
  hazards: "hazard",
  steps: "step",
  host: "host",
  printing: "printing of",
  axes: "axis",
  box: "box item",
}

const innerNouns: Readonly<Record<string, string>> = {
  bores: "bore",
  sockets: "socket",
  pieces: "piece",
  ends: "end",
  copies: "copy",
  "screwed-in": "own screws",
}

/** Names the value at a path of names, from the inside out. An empty path is the kit itself. */
export function nameOf(path: readonly string[]): string {
  const [first, id, inner, innerId] = path
  if (first === undefined) return "the kit"
  const noun = nouns[first]
  if (noun === undefined || id === undefined) return fieldOf(path, "")
  const innerNoun = inner === undefined ? undefined : innerNouns[inner]
  if (innerNoun !== undefined && innerId !== undefined)
    return fieldOf(path.slice(4), `${innerNoun} \`${id}.${innerId}\``)
  return fieldOf(path.slice(2), `${noun} \`${id}\``)
}

/** Names the owner of the value at a path. */
export function ownerOf(path: readonly string[]): string {
  return nameOf(path.slice(0, -1))
}

function fieldOf(fields: readonly string[], owner: string): string {
  const names = fields.filter((field) => !/^\d+$/.test(field))
  const position = /^\d+$/.test(fields.at(-1) ?? "") ? `entry ${Number(fields.at(-1)) + 1} of ` : ""
  // Two names tell enough; the place tells the rest.
  const shown = names
    .slice(-2)
    .reverse()
    .map((name) => `\`${name}\``)
  const chain = [...shown, ...(owner === "" ? [] : [owner])].join(" of ")
  return position + (chain === "" ? "the kit" : chain)
}
