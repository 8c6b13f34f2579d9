/** The way back: acts of mounting in reversed order, as far as they can be reversed. */
import type { Act } from "../kit/types.ts"
import { countPieces, sayItems, viewAct } from "./acts.ts"
import { type Context, sayOwnScrews, sayTools } from "./context.ts"
import { sayOther, sayTarget, startLine } from "./names.ts"

/**
 * Lists the acts of removal. Work on a unit that carries energy begins by switching it off; own screws go back last.
 * Acts with nothing to reverse (align, trim, clean, check, wait) are left out, and so is `start`, which `tighten` covers.
 */
export function listRemoval(context: Context): readonly string[] {
  const acts = context.kit.steps.flatMap((step) => step.acts)
  const off = acts
    .filter((act) => act.verb === "isolate" || act.verb === "verify")
    .map((act) => viewAct(context, act).words)
  const back = [...acts].reverse().flatMap((act) => reverseAct(context, act))
  return [...new Set([...off, ...back].map(startLine))]
}

function reverseAct(context: Context, act: Act): readonly string[] {
  const { removal, acts } = context.words
  const target = sayTarget(context, act)
  const other = sayOther(context, act)
  switch (act.verb) {
    case "tighten":
      return [removal.takeOut(sayItems(context, act), sayTools(context, act.target))]
    case "place":
      return [removal.takeOff(countPieces(context, act))]
    case "remove":
      return [removal.putBack(countPieces(context, act))]
    case "strap":
      return [removal.cutTie(sayItems(context, act))]
    case "stick":
      return [removal.peel(sayItems(context, act))]
    case "connect":
      return [acts.disconnect(target, other)]
    case "disconnect":
      return [acts.connect(target, other)]
    case "feed":
      return [acts.withdraw(target, other)]
    case "withdraw":
      return [acts.feed(target, other ?? "")]
    case "open":
      return [acts.close(target)]
    case "close":
      return [acts.open(target)]
    case "unscrew": {
      const own = context.kit.ownJoints.find((each) => each.id === act.target)
      if (own === undefined) return []
      return [removal.ownScrewsBack(sayOwnScrews(context, own, act.count ?? own.count), removal.ownTorque)]
    }
    default:
      return []
  }
}
