/** A synthetic kit of any number of steps: many gauges on one mast, each with its plate, saddle, lead and hood. */
import { fixedEnd, freeEnd, type Small, type SmallStep } from "./small-kit.ts"

const stepsOfGauge = 8

/** A valid order of about `stepCount` steps: power off, each gauge mounted, power on, a last look. */
export function makeLargeKit(stepCount: number): Small {
  const count = Math.max(1, Math.round((stepCount - 2) / stepsOfGauge))
  const numbers = Array.from({ length: count }, (_, index) => index + 1)
  return {
    units: [{ id: "panel", isPowered: true }, ...numbers.map((number) => ({ id: `gauge-${number}` }))],
    parts: numbers.flatMap((number) => [
      { id: `saddle-${number}` },
      { id: `plate-${number}` },
      { id: `hood-${number}`, covers: [`panel.port-${number}`] },
    ]),
    joints: numbers.flatMap((number) => [
      { id: `foot-${number}`, through: [`plate-${number}`], owner: `gauge-${number}` },
      { id: `ears-${number}`, through: [`hood-${number}`], owner: `plate-${number}` },
    ]),
    sockets: numbers.map((number) => ({ id: `panel.port-${number}`, owner: "panel" })),
    cables: numbers.map((number) => ({
      id: `lead-${number}`,
      ends: [freeEnd(`lead-${number}.plug`), fixedEnd(`lead-${number}.inner`)],
      via: [`gate-${number}`],
    })),
    passages: numbers.map((number) => ({ id: `gate-${number}`, part: `hood-${number}` })),
    ties: numbers.map((number) => ({ id: `clamp-${number}`, count: 2, holds: [`saddle-${number}`] })),
    pads: numbers.map((number) => ({ id: `grip-${number}`, on: `saddle-${number}` })),
    steps: [
      { id: "switch-off", acts: ["isolate: panel", "verify: panel"] },
      ...numbers.flatMap(stepsFor),
      { id: "switch-on", acts: ["restore: panel"] },
      { id: "last-look", acts: ["inspect: all"] },
    ],
  }
}

function stepsFor(number: number): readonly SmallStep[] {
  return [
    { id: `pad-${number}`, acts: [`clean: saddle-${number}`, `stick: grip-${number}`] },
    { id: `plate-${number}`, acts: [`place: plate-${number}`, `start: foot-${number}`] },
    { id: `tighten-${number}`, acts: [`tighten: foot-${number}`] },
    {
      id: `saddle-${number}`,
      acts: [`place: saddle-${number}`, `strap: clamp-${number}`],
      after: [`tighten-${number}`],
    },
    { id: `trim-${number}`, acts: [`trim: clamp-${number}`] },
    { id: `feed-${number}`, acts: [`feed: lead-${number}.plug through gate-${number}`] },
    { id: `connect-${number}`, acts: [`connect: lead-${number}.plug to panel.port-${number}`] },
    { id: `hood-${number}`, acts: [`place: hood-${number}`, `start: ears-${number}`, `tighten: ears-${number}`] },
  ]
}
