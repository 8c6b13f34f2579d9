/** All operators. */
import type { Operator } from "../plant.ts"
import { cableOperators } from "./cables.ts"
import { jointOperators } from "./joints.ts"
import { missingOperators } from "./missing.ts"
import { moreOrderOperators } from "./more-order.ts"
import { nameOperators } from "./names.ts"
import { actOrderOperators } from "./order-acts.ts"
import { cableOrderOperators } from "./order-cables.ts"
import { stepOrderOperators } from "./order-steps.ts"
import { supplyOperators } from "./supply.ts"
import { variantOperators } from "./variants.ts"

export const operators: readonly Operator[] = [
  ...stepOrderOperators,
  ...actOrderOperators,
  ...cableOrderOperators,
  ...moreOrderOperators,
  ...missingOperators,
  ...jointOperators,
  ...supplyOperators,
  ...cableOperators,
  ...variantOperators,
  ...nameOperators,
]
