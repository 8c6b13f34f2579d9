/** Judges whether each cable end is connected to the socket that it belongs to. */
import { placeAt } from "../findings/places.ts"
import { describeAct } from "../sequence/index.ts"
import { fitMessage } from "./order-words.ts"
import { defineRule } from "./types.ts"
import { isEndOf, wrongSocket } from "./uses.ts"

/** Finds acts that connect an end to a socket which takes another end, or another end of whose cable it takes. */
export const endInWrongSocket = defineRule({
  id: "end-in-wrong-socket",
  severity: "error",
  source: "the kit's own `takes:`",
  check: ({ kit }) =>
    kit.steps.flatMap(({ id: step, acts }) =>
      acts.flatMap((act) => {
        const socket = wrongSocket(kit, act)
        if (socket?.takes === undefined) return []
        const right = kit.sockets.find(({ takes }) => takes !== undefined && isEndOf(takes, act.target))
        return [
          {
            message: fitMessage(
              `step \`${step}\` ${describeAct(act)}, which takes \`${socket.takes}\``,
              `socket \`${socket.id}\` takes \`${socket.takes}\`, not \`${act.target}\``,
              `socket \`${socket.id}\` takes another end`,
            ),
            where: placeAt(kit.places, act.path),
            why: "A plug in the wrong socket can destroy the unit, even where it fits.",
            fix:
              right === undefined
                ? `Connect \`${socket.takes}\` here, or correct \`takes:\` of the socket.`
                : `Write \`connect: ${act.target} to ${right.id}\`.`,
            related: [{ message: "what the socket takes", where: placeAt(kit.places, socket.path, "takes") }],
            subjects: [act.target, socket.id, step],
          },
        ]
      }),
    ),
})
