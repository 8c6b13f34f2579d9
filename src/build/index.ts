/** The operations of this program: what the command line calls, any other program can call the same way. */

export { describeFact } from "../sequence/index.ts"
export type { OrderCount, StepFreedom } from "../sequence/plan-types.ts"
export { readPackageVersion } from "./assets.ts"
export { buildKit, buildKits } from "./build-kit.ts"
export { checkKit } from "./check-kit.ts"
export { type Measured, measureFile } from "./measure-file.ts"
export { newKit } from "./new-kit.ts"
export { writeOrderGraphs } from "./order-graphs.ts"
export { orderKit } from "./order-kit.ts"
export type { NumberedStep, OrderOfVariants, OrderResult, RepairResult } from "./order-types.ts"
export { isForeignIndex } from "./out-folder.ts"
export { findKitFolders } from "./read-kit.ts"
export { repairKit } from "./repair-kit.ts"
export { toolFaultId } from "./tell-fault.ts"
export type {
  BuildOptions,
  BuildResult,
  CheckResult,
  OnProgress,
  Progress,
  SourceFile,
  VariantResult,
} from "./types.ts"
export { writeSchemas } from "./write-schemas.ts"
