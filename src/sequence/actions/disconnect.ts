/** Takes one end of a cable off its socket. */
import type { Act } from "../../kit/types.ts"
import { fact } from "../facts.ts"
import { actsOn, type Lookup } from "../lookup.ts"
import { liveOfConnection, powerNeeds } from "../power.ts"
import { socketAccess } from "./connect.ts"
import type { ActionKind } from "./types.ts"

/** Needs the end connected and within reach, the power off. Leaves end and socket free. */
export const disconnect: ActionKind = {
  words: ({ target, to }) => `disconnects \`${target}\`` + (to === undefined ? "" : ` from \`${to}\``),
  facts: (lookup, act) => {
    const socket = socketOf(lookup, act)
    return {
      needs: [
        { fact: fact("connected", act.target), why: `only a connected end can be disconnected` },
        ...socketAccess(lookup, act.target, socket),
        ...powerNeeds(lookup, liveOfConnection(lookup, act.target, socket)),
      ],
      gives: [fact("free", act.target), ...(socket === undefined ? [] : [fact("empty", socket)])],
      takes: [fact("connected", act.target)],
    }
  },
}

/** The socket named by the act, else where the end arrives, else the one place it is connected to. */
function socketOf(lookup: Lookup, { target, to }: Act): string | undefined {
  if (to !== undefined) return to
  const arrival = lookup.cableByEnd.get(target)?.ends.find(({ id }) => id === target)?.arrival
  if (arrival?.state === "connected") return arrival.socket
  return actsOn(lookup, "connect", target)[0]?.to
}
