/** Openings too small, wrong sockets, cables too short. */
import type { Kit } from "../../../src/kit/types.ts"
import { nameAct, withVerb, writtenActs } from "../acts.ts"
import { addEntry, overwrite, pathNow, rewriteAct } from "../draft.ts"
import { marks, type Operator, type Plant } from "../plant.ts"

/** An opening smaller than the ends that are fed through it: each of them is told. */
const openingTooSmall: Operator = {
  name: "opening-too-small",
  faults: ["F06"],
  find: (variant) => {
    const { kit } = variant.proof
    return kit.passages.flatMap((passage): readonly Plant[] => {
      const place = kit.places[`${passage.path}/opening`]
      const fed = withVerb(writtenActs(variant), "feed").filter(({ act }) => act.through === passage.id)
      if (place === undefined || fed.length === 0 || !passage.isClosed) return []
      return [
        {
          site: passage.id,
          edit: (draft) => overwrite(draft, place, "round 4"),
          expect: (draft) => fed.map((one) => marks("connector-does-not-pass", pathNow(draft, one.origin))),
        },
      ]
    })
  },
}

/** An end too large for the openings that it is fed through. */
const endTooLarge: Operator = {
  name: "end-too-large",
  faults: ["F06"],
  find: (variant) => {
    const { kit } = variant.proof
    const feeds = withVerb(writtenActs(variant), "feed").filter(({ act }) =>
      kit.passages.some(({ id, isClosed, opening }) => id === act.through && isClosed && opening !== undefined),
    )
    return [...new Set(feeds.map(({ act }) => act.target))].flatMap((end): readonly Plant[] => {
      const path = endPath(kit, end)
      const place = kit.places[`${path}/size`] ?? kit.places[path]
      if (place === undefined) return []
      return [
        {
          site: end,
          edit: (draft) => overwrite(draft, place, "52 x 51"),
          expect: (draft) =>
            feeds
              .filter(({ act }) => act.target === end)
              .map(({ origin }) => marks("connector-does-not-pass", pathNow(draft, origin))),
        },
      ]
    })
  },
}

/** An end is connected to a socket that takes another. */
const otherSocket: Operator = {
  name: "other-socket",
  faults: ["F44"],
  find: (variant) => {
    const { kit } = variant.proof
    return withVerb(writtenActs(variant), "connect").flatMap((one) =>
      kit.sockets
        .filter(({ id, takes }) => id !== one.act.to && takes !== undefined)
        .map(
          (socket): Plant => ({
            site: `${nameAct(one)} to ${socket.id}`,
            edit: (draft) => rewriteAct(draft, one.origin, (text) => text.replace(one.act.to ?? "?", socket.id)),
            expect: (draft) => [marks("end-in-wrong-socket", pathNow(draft, one.origin))],
          }),
        ),
    )
  },
}

/** A cable too short for its way. */
const cableTooShort: Operator = {
  name: "cable-too-short",
  faults: ["F45"],
  find: ({ proof: { kit } }) =>
    kit.cables.flatMap((cable): readonly Plant[] => {
      const place = kit.places[`${cable.path}/length`]
      if (place === undefined || cable.route.length < 2) return []
      const wayMm = cable.route.slice(1).reduce((sum, to, index) => {
        const from = cable.route[index] ?? to
        return sum + Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
      }, 0)
      return [
        {
          site: cable.id,
          edit: (draft) => overwrite(draft, place, String(Math.floor(wayMm * 0.8))),
          expect: () => [marks("cable-too-short", cable.path)],
        },
      ]
    }),
}

/** A cable that does not bend as tightly as its way asks. */
const bendTooTight: Operator = {
  name: "bend-too-tight",
  faults: ["F46"],
  find: ({ proof: { kit } }) =>
    kit.cables.flatMap((cable): readonly Plant[] => {
      const place = kit.places[`${cable.path}/least-bend`]
      if (place === undefined || cable.route.length < 3) return []
      return [
        {
          site: cable.id,
          edit: (draft) => overwrite(draft, place, "900"),
          expect: () => [marks("bend-too-tight", cable.path)],
        },
      ]
    }),
}

/** An opening that nothing runs through. */
const passageUnused: Operator = {
  name: "passage-unused",
  faults: ["K30"],
  find: ({ proof: { kit } }) => {
    const part = kit.parts.find(({ ownedBy }) => ownedBy === undefined)
    if (part === undefined || kit.places.passages?.file !== "kit.yaml") return []
    return [
      {
        site: part.id,
        edit: (draft) => addEntry(draft, "kit.yaml", ["passages"], `planted-hole: { in: ${part.id}, opening: 3 x 3 }`),
        expect: () => [marks("passage-never-used", "passages/planted-hole")],
      },
    ]
  },
}

function endPath(kit: Kit, end: string): string {
  const cable = kit.cables.find(({ ends }) => ends.some(({ id }) => id === end))
  return `${cable?.path ?? ""}/ends/${end.split(".")[1] ?? ""}`
}

/** All operators on cables. */
export const cableOperators: readonly Operator[] = [
  openingTooSmall,
  endTooLarge,
  otherSocket,
  cableTooShort,
  bendTooTight,
  passageUnused,
]
