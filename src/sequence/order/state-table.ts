/** A hash table of states, each a row of 32-bit words, with the number of ways in which it is reached. */

export type StateTable = {
  readonly size: () => number
  /** All rows, one after another in the order in which they came. */
  readonly keys: () => Uint32Array
  readonly ways: (index: number) => bigint
  /** Adds ways to the row that stands in `row` from `offset` on. */
  readonly add: (row: Uint32Array, offset: number, ways: bigint) => void
  /** Index of a row, -1 when it is not there. */
  readonly find: (row: Uint32Array) => number
}

/** Makes an empty table for rows of `words` words. Open addressing; it doubles when it is half full. */
export function makeStateTable(words: number): StateTable {
  let slots = new Int32Array(64).fill(-1)
  let keys = new Uint32Array(32 * words)
  const counts: bigint[] = []
  const hashOf = (row: Uint32Array, offset: number): number => {
    // Multiply and shift (FNV-like, from memory): only speed depends on it.
    let hash = 0x811c9dc5
    for (let word = 0; word < words; word += 1) {
      hash = Math.imul(hash ^ (row[offset + word] ?? 0), 0x01000193)
      hash ^= hash >>> 15
    }
    hash = Math.imul(hash, 0x85ebca6b)
    return (hash ^ (hash >>> 13)) >>> 0
  }
  const isAt = (index: number, row: Uint32Array, offset: number): boolean => {
    for (let word = 0; word < words; word += 1) if (keys[index * words + word] !== row[offset + word]) return false
    return true
  }
  const slotOf = (row: Uint32Array, offset: number): number => {
    const mask = slots.length - 1
    let slot = hashOf(row, offset) & mask
    for (let index = slots[slot] ?? -1; index >= 0 && !isAt(index, row, offset); index = slots[slot] ?? -1)
      slot = (slot + 1) & mask
    return slot
  }
  const grow = (): void => {
    slots = new Int32Array(2 * slots.length).fill(-1)
    const wider = new Uint32Array((slots.length / 2) * words)
    wider.set(keys)
    keys = wider
    for (let index = 0; index < counts.length; index += 1) slots[slotOf(keys, index * words)] = index
  }
  return {
    size: () => counts.length,
    keys: () => keys,
    ways: (index) => counts[index] ?? 0n,
    find: (row) => slots[slotOf(row, 0)] ?? -1,
    add: (row, offset, ways) => {
      const slot = slotOf(row, offset)
      const known = slots[slot] ?? -1
      if (known >= 0) {
        counts[known] = (counts[known] ?? 0n) + ways
        return
      }
      slots[slot] = counts.length
      for (let word = 0; word < words; word += 1) keys[counts.length * words + word] = row[offset + word] ?? 0
      counts.push(ways)
      if (2 * counts.length >= slots.length) grow()
    },
  }
}
