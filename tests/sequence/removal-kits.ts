/** Small kits put together from choices, each mounted in an order that is valid by the way it is built. */
import fc from "fast-check"
import { connectedEnd, fixedEnd, freeEnd, type Small, type SmallStep } from "./small-kit.ts"

/** What a kit has; each choice adds its things and steps. */
export type Choices = {
  readonly isPowered: boolean
  readonly ownScrews: "none" | "kept" | "back"
  readonly foot: "bolt" | "tie"
  readonly bracket: "none" | "bench" | "later"
  readonly hood: "none" | "screwed" | "clipped"
  readonly hoodCovers: readonly string[]
  readonly lead: "none" | "free" | "moved"
  readonly isThroughHood: boolean
  readonly hasSunLead: boolean
  readonly lid: "none" | "put-back" | "taken-off"
  readonly door: "none" | "shut" | "latched"
  readonly pad: "none" | "part" | "unit"
  readonly isInGoes: boolean
}

/** All choices, freely combined. */
export const choices: fc.Arbitrary<Choices> = fc.record({
  isPowered: fc.boolean(),
  ownScrews: fc.constantFrom("none", "kept", "back"),
  foot: fc.constantFrom("bolt", "tie"),
  bracket: fc.constantFrom("none", "bench", "later"),
  hood: fc.constantFrom("none", "screwed", "clipped"),
  hoodCovers: fc.subarray(["gauge.power", "foot", "bracket", "gauge.foot"]),
  lead: fc.constantFrom("none", "free", "moved"),
  isThroughHood: fc.boolean(),
  hasSunLead: fc.boolean(),
  lid: fc.constantFrom("none", "put-back", "taken-off"),
  door: fc.constantFrom("none", "shut", "latched"),
  pad: fc.constantFrom("none", "part", "unit"),
  isInGoes: fc.boolean(),
})

/** Builds the kit of some choices. */
export function kitOf(choice: Choices): Small {
  const { isPowered, ownScrews, foot, bracket, hood, lead, isThroughHood, hasSunLead, lid, door, pad } = choice
  const hasHood = hood !== "none"
  const isThrough = hasHood && isThroughHood && lead !== "none"
  const hasOwn = ownScrews !== "none"
  // Screws that go back in leave the kit without a joint into their bore.
  const isBolted = foot === "bolt" && ownScrews !== "back"
  const step = (id: string, acts: readonly (string | false)[]): SmallStep[] => {
    const kept = acts.filter((act) => act !== false)
    return kept.length === 0 ? [] : [{ id, acts: kept }]
  }
  const placeBracket = bracket !== "none" && ["place: bracket", "start: bracket", "tighten: bracket"]
  const fasten = isBolted
    ? choice.isInGoes
      ? ["start: 1 x foot", "start: 1 x foot", "tighten: foot"]
      : ["start: foot", "tighten: foot"]
    : ["strap: hoop"]
  return {
    units: [{ id: "gauge", isPowered }],
    parts: [
      { id: "plate" },
      ...(bracket === "none" ? [] : [{ id: "bracket" }]),
      ...(hasHood ? [{ id: "hood", covers: choice.hoodCovers, holdsItself: hood === "clipped" }] : []),
      ...(lid === "none" ? [] : [{ id: "lid", ownedBy: "gauge", covers: ["gauge.power", "gauge.sun"] }]),
      ...(door !== "none" ? [{ id: "door", holdsItself: true, opens: true, covers: ["plate", "gauge.power"] }] : []),
    ],
    joints: [
      ...(isBolted ? [{ id: "foot", through: ["plate"], owner: "gauge", intoBore: "gauge.foot" }] : []),
      ...(bracket === "none" ? [] : [{ id: "bracket", through: ["bracket"], owner: "plate" }]),
      ...(hood === "screwed" ? [{ id: "hood", through: ["hood"], owner: "plate" }] : []),
      ...(door === "latched" ? [{ id: "latch", through: ["door"], owner: "plate" }] : []),
    ],
    ownJoints: [
      ...(hasOwn ? [{ id: "gauge.foot", unit: "gauge", bore: "gauge.foot" }] : []),
      ...(lid === "none" ? [] : [{ id: "gauge.lid", unit: "gauge", bore: "gauge.lid" }]),
    ],
    sockets: [
      { id: "gauge.power", owner: "gauge" },
      { id: "gauge.sun", owner: "gauge" },
    ],
    cables: [
      ...(lead === "none"
        ? []
        : [
            {
              id: "lead",
              ends: [
                lead === "moved" ? connectedEnd("lead.plug", "gauge.power") : freeEnd("lead.plug"),
                fixedEnd("lead.inner"),
              ],
              via: isThrough ? ["hood-hole"] : [],
            },
          ]),
      ...(hasSunLead ? [{ id: "sun", isSupplied: true, ends: [freeEnd("sun.head"), freeEnd("sun.tail")] }] : []),
    ],
    passages: isThrough ? [{ id: "hood-hole", part: "hood" }] : [],
    ties: isBolted ? [] : [{ id: "hoop", holds: ["plate"], frame: "mast" }],
    pads: pad === "none" ? [] : [{ id: "grip", on: pad === "part" ? "plate" : "gauge" }],
    steps: [
      ...step("off", [isPowered && "isolate: gauge", isPowered && "verify: gauge"]),
      ...step("pad", [pad !== "none" && "stick: grip"]),
      ...step("own", [hasOwn && "unscrew: gauge.foot", ownScrews === "kept" && "set-aside: gauge.foot"]),
      ...step("bench", bracket === "bench" && placeBracket !== false ? ["place: plate", ...placeBracket] : []),
      ...step("plate", [bracket !== "bench" && "place: plate", ...fasten]),
      ...step("later", bracket === "later" && placeBracket !== false ? placeBracket : []),
      ...step("own-back", ownScrews === "back" ? ["start: gauge.foot", "tighten: gauge.foot"] : []),
      ...step("lid", lid === "none" ? [] : ["unscrew: gauge.lid", "remove: lid"]),
      ...step("sun", [hasSunLead && "connect: sun.head to gauge.sun"]),
      ...step("lead", [
        lead === "moved" && "disconnect: lead.plug from gauge.power",
        isThrough && "feed: lead.plug through hood-hole",
        lead !== "none" && "connect: lead.plug to gauge.power",
      ]),
      ...step(
        "lid-back",
        lid === "none"
          ? []
          : lid === "put-back"
            ? ["place: lid", "start: gauge.lid", "tighten: gauge.lid"]
            : ["set-aside: lid", "set-aside: gauge.lid"],
      ),
      ...step("hood", [
        hasHood && "place: hood",
        hood === "screwed" && "start: hood",
        hood === "screwed" && "tighten: hood",
      ]),
      ...step("door", door === "none" ? [] : ["place: door", "close: door"]),
      ...step("latch", door === "latched" ? ["start: latch", "tighten: latch"] : []),
      ...step("on", [isPowered && "restore: gauge", "inspect: all"]),
    ],
  }
}
