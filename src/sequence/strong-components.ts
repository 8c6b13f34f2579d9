/** Strongly connected components (Tarjan 1972), without recursion: chains of any length are no matter of stack. */

/** Gives the component number of each node of a graph told by its successors. */
export function strongComponents(successors: readonly (readonly number[])[]): Int32Array {
  const count = successors.length
  const component = new Int32Array(count).fill(-1)
  const index = new Int32Array(count).fill(-1)
  const low = new Int32Array(count)
  const next = new Int32Array(count)
  const isOpen = new Uint8Array(count)
  const open: number[] = []
  let visited = 0
  let components = 0
  const enter = (node: number): void => {
    index[node] = visited
    low[node] = visited
    visited += 1
    open.push(node)
    isOpen[node] = 1
  }
  for (let root = 0; root < count; root += 1) {
    if ((index[root] ?? 0) >= 0) continue
    const calls = [root]
    enter(root)
    for (let node = calls.at(-1); node !== undefined; node = calls.at(-1)) {
      const successor = successors[node]?.[next[node] ?? 0]
      if (successor !== undefined) {
        next[node] = (next[node] ?? 0) + 1
        if ((index[successor] ?? 0) < 0) {
          enter(successor)
          calls.push(successor)
        } else if (isOpen[successor] === 1) low[node] = Math.min(low[node] ?? 0, index[successor] ?? 0)
        continue
      }
      calls.pop()
      const caller = calls.at(-1)
      if (caller !== undefined) low[caller] = Math.min(low[caller] ?? 0, low[node] ?? 0)
      if (low[node] !== index[node]) continue
      for (let member = open.pop(); member !== undefined; member = open.pop()) {
        isOpen[member] = 0
        component[member] = components
        if (member === node) break
      }
      components += 1
    }
  }
  return component
}
