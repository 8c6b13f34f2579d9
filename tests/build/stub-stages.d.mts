import type { Stages } from "../../src/build/stages.ts"
import type { Severity } from "../../src/findings/types.ts"

export function makeStubStages(
  generation: () => number | string,
  variants?: readonly string[],
  severityOf?: (variant: string) => Severity | undefined,
): Stages
