/** Times of repeated work. */

/** One line of a benchmark: the middle of several runs in milliseconds, with a remark. */
export type Timing = { readonly name: string; readonly ms: number; readonly note?: string }

/** Runs `work` `runCount` times and gives the middle time: one slow run of a busy machine does not move it. */
export async function timeMiddle(name: string, runCount: number, work: () => unknown, note?: string): Promise<Timing> {
  const times: number[] = []
  for (let run = 0; run < runCount; run += 1) {
    const start = performance.now()
    await work()
    times.push(performance.now() - start)
  }
  const ms = [...times].sort((one, other) => one - other)[Math.floor(runCount / 2)] ?? 0
  return note === undefined ? { name, ms } : { name, ms, note }
}

/** A timing as a line, with its ratio to `base` when there is one. */
export function showTiming({ name, ms, note }: Timing, base?: Timing): string {
  const ratio = base === undefined ? "" : `  ${(ms / base.ms).toFixed(2)} x ${base.name}`
  return `${name.padEnd(44)} ${ms.toFixed(0).padStart(6)} ms${ratio}${note === undefined ? "" : `  (${note})`}`
}
