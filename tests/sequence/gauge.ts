/** The kit that most tests of the order start from. */
import { fixedEnd, freeEnd, type Small } from "./small-kit.ts"

/** A gauge on a mast: own screws, plate, saddle with ties and pad, a lead through the hood, power. */
export const gauge = {
  units: [{ id: "gauge", isPowered: true }],
  parts: [
    { id: "saddle", instances: ["saddle.1", "saddle.2"] },
    { id: "plate" },
    { id: "hood", covers: ["gauge.power"] },
  ],
  joints: [
    { id: "foot", through: ["plate"], owner: "gauge", intoBore: "gauge.foot" },
    { id: "hood", through: ["hood"], owner: "plate" },
  ],
  ownJoints: [{ id: "gauge.foot", unit: "gauge", bore: "gauge.foot" }],
  sockets: [{ id: "gauge.power", owner: "gauge" }],
  cables: [{ id: "lead", ends: [freeEnd("lead.plug"), fixedEnd("lead.inner")], via: ["hood-hole"] }],
  passages: [{ id: "hood-hole", part: "hood" }],
  ties: [{ id: "clamp", count: 4, holds: ["saddle"] }],
  pads: [{ id: "grip", on: "saddle", count: 2 }],
  steps: [
    { id: "switch-off", acts: ["isolate: gauge", "verify: gauge"] },
    { id: "unscrew", acts: ["unscrew: gauge.foot", "set-aside: gauge.foot"] },
    { id: "plate", acts: ["place: plate", "start: foot", "tighten: foot"] },
    { id: "pads", acts: ["clean: saddle", "stick: grip"] },
    { id: "mast", acts: ["place: saddle", "strap: clamp", "trim: clamp"] },
    { id: "feed", acts: ["feed: lead.plug through hood-hole"] },
    { id: "connect", acts: ["connect: lead.plug to gauge.power"] },
    { id: "hood", acts: ["place: hood", "start: hood", "tighten: hood"] },
    { id: "on", acts: ["restore: gauge"] },
    { id: "done", acts: ["inspect: all"] },
  ],
} satisfies Small
