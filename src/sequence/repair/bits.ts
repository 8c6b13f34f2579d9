/** Sets of small numbers as bits of words, and rows of such sets: fast unions and searches for the order of many steps. */

/** Gives the number of words that hold `count` bits. */
export function countWords(count: number): number {
  return (count + 31) >>> 5
}

/** Tells whether `member` is in the row that begins at word `start`. */
export function hasBit(bits: Uint32Array, start: number, member: number): boolean {
  return (((bits[start + (member >>> 5)] ?? 0) >>> (member & 31)) & 1) === 1
}

/** Puts `member` into the row that begins at word `start`. */
export function setBit(bits: Uint32Array, start: number, member: number): void {
  const word = start + (member >>> 5)
  bits[word] = (bits[word] ?? 0) | (1 << (member & 31))
}

/** Takes `member` out of the row that begins at word `start`. */
export function clearBit(bits: Uint32Array, start: number, member: number): void {
  const word = start + (member >>> 5)
  bits[word] = (bits[word] ?? 0) & ~(1 << (member & 31))
}

/** Number of the lowest bit of a word that is not 0. */
export function lowestBit(word: number): number {
  return 31 - Math.clz32(word & -word)
}

/** The lowest member of a row that is all of `bits`; -1 when it has none. */
export function firstBit(bits: Uint32Array): number {
  const word = bits.findIndex((one) => one !== 0)
  return word < 0 ? -1 : word * 32 + lowestBit(bits[word] ?? 0)
}

/** Bits of one word that stand above `member`, which lies in this word. */
export function bitsAbove(member: number): number {
  return (member & 31) === 31 ? 0 : -1 << ((member & 31) + 1)
}

/** The members of a row in ascending order. */
export function listBits(bits: Uint32Array, start: number, words: number): readonly number[] {
  const members: number[] = []
  for (let word = 0; word < words; word += 1)
    for (let rest = bits[start + word] ?? 0; rest !== 0; rest &= rest - 1) members.push(word * 32 + lowestBit(rest))
  return members
}

/** How many members a row has. Source: H. S. Warren, Hacker's Delight, section 5-1, from memory. */
export function countBits(bits: Uint32Array, start: number, words: number): number {
  let count = 0
  for (let word = 0; word < words; word += 1) {
    let rest = bits[start + word] ?? 0
    rest -= (rest >>> 1) & 0x55555555
    rest = (rest & 0x33333333) + ((rest >>> 2) & 0x33333333)
    count += Math.imul((rest + (rest >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24
  }
  return count
}
