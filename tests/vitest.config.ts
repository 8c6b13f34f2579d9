/** How tests run: as many processes as there are cores, and the files that take longest first. */
import { availableParallelism } from "node:os"
import { defineConfig } from "vitest/config"
import { BaseSequencer, type TestSpecification } from "vitest/node"

/** One of these begun last would leave the other cores idle until it is done. */
const longest = [
  "build/demo",
  "cli/order",
  "cli/main",
  "guides/every-value",
  "faults/gate",
  "build/fresh-install",
  "kit/slips",
  "guides/expected",
  "guides/plain-data",
]

class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files)
    const rank = ({ moduleId }: TestSpecification): number => {
      const index = longest.findIndex((name) => moduleId.endsWith(`${name}.test.ts`))
      return index < 0 ? longest.length : index
    }
    return sorted.sort((one, other) => rank(one) - rank(other))
  }
}

export default defineConfig(({ mode }) => ({
  test: {
    // `npm run test:all` runs every site of the fault gate, and properties many more times.
    env: mode === "all" ? { KITLEAF_ALL: "1" } : {},
    root: new URL("..", import.meta.url).pathname,
    include: ["tests/**/*.test.ts"],
    // Ample for a machine that is busy with other work; the longest test takes a tenth of it.
    testTimeout: 300_000,
    hookTimeout: 300_000,
    pool: "forks",
    maxWorkers: Math.max(2, availableParallelism()),
    // Proofs make much that is soon forgotten; more room for it means fewer rounds of the collector.
    execArgv: ["--max-semi-space-size=64"],
    // Stages are pure, so files may share a process and load every module once.
    isolate: false,
    sequence: { sequencer: LongestFirst },
  },
}))
