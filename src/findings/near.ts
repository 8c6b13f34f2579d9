/** Names near a mistyped one. */

/** Gives up to three of `known` that are near `name`, nearest first; none when nothing is near. */
export function nearNames(name: string, known: readonly string[]): readonly string[] {
  return rankNear(name, known).map(({ candidate }) => candidate)
}

/** Gives those of `known` that are nearest to `name`: one, or several that are equally near. */
export function nearestNames(name: string, known: readonly string[]): readonly string[] {
  const [first, ...rest] = rankNear(name, known)
  return first === undefined
    ? []
    : [first, ...rest.filter(({ distance }) => distance === first.distance)].map(({ candidate }) => candidate)
}

function rankNear(
  name: string,
  known: readonly string[],
): readonly { readonly candidate: string; readonly distance: number }[] {
  const limit = Math.max(1, Math.floor(name.length / 3))
  return known
    .map((candidate) => ({ candidate, distance: editDistance(name.toLowerCase(), candidate.toLowerCase()) }))
    .filter(({ distance }) => distance <= limit)
    .sort((one, other) => one.distance - other.distance || (one.candidate < other.candidate ? -1 : 1))
    .slice(0, 3)
}

/** Letters to insert, delete, replace or swap with the neighbour (optimal string alignment). */
function editDistance(one: string, other: string): number {
  const rows: number[][] = [Array.from({ length: other.length + 1 }, (_, column) => column)]
  const at = (row: number, column: number): number => rows[row]?.[column] ?? 0
  for (let row = 1; row <= one.length; row += 1) {
    const line = [row]
    rows.push(line)
    for (let column = 1; column <= other.length; column += 1) {
      const isEqual = one[row - 1] === other[column - 1]
      let best = Math.min(
        at(row - 1, column) + 1,
        (line[column - 1] ?? 0) + 1,
        at(row - 1, column - 1) + (isEqual ? 0 : 1),
      )
      const isSwap = row > 1 && column > 1 && one[row - 1] === other[column - 2] && one[row - 2] === other[column - 1]
      if (isSwap) best = Math.min(best, at(row - 2, column - 2) + 1)
      line.push(best)
    }
  }
  return at(one.length, other.length)
}
