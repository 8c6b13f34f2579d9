/** Connects one end of a cable to a socket. */
import { accessNeeds } from "../access.ts"
import { fact } from "../facts.ts"
import type { Lookup } from "../lookup.ts"
import { liveOfConnection, powerNeeds } from "../power.ts"
import type { Need } from "../types.ts"
import type { ActionKind } from "./types.ts"

/** Needs the end free, the socket empty and within reach, the power off. */
export const connect: ActionKind = {
  words: ({ target, to }) => `connects \`${target}\`` + (to === undefined ? "" : ` to \`${to}\``),
  facts: (lookup, { target, to }) => ({
    needs: [
      { fact: fact("free", target), why: `only a free end can be connected` },
      ...(to === undefined ? [] : [{ fact: fact("empty", to), why: `a socket takes one end` }]),
      ...socketAccess(lookup, target, to),
      ...powerNeeds(lookup, liveOfConnection(lookup, target, to)),
    ],
    gives: [fact("connected", target)],
    takes: [fact("free", target), ...(to === undefined ? [] : [fact("empty", to)])],
  }),
}

/** Needs for reaching a socket with an end in hand. */
export function socketAccess(lookup: Lookup, end: string, socket: string | undefined): readonly Need[] {
  const owner = socket === undefined ? undefined : lookup.sockets.get(socket)?.owner
  const cable = lookup.cableByEnd.get(end)?.id
  return accessNeeds(
    lookup,
    [end, cable, socket, owner].filter((id) => id !== undefined),
    [],
  )
}
