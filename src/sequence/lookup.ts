/** Indexes over one kit that all actions read: what an id names, what hides what, which acts the kit has. */
import type { Fit } from "../fit/types.ts"
import type { Joint, OwnJoint } from "../kit/joint-types.ts"
import type { Act, Assembly, Cable, Kit, Pad, Part, Passage, Socket, Tie } from "../kit/types.ts"
import type { Verb } from "../spec/types.ts"
import { type CableMoves, indexMoves } from "./cable-moves.ts"
import { findLeftOut } from "./left-out.ts"
import { pieceHeldBy } from "./own-pieces.ts"
import { findRests, type Rests } from "./rests.ts"

/** Built once per proof; lives only inside `sequence`. */
export type Lookup = {
  readonly kit: Kit
  readonly instancesById: ReadonlyMap<string, readonly string[]>
  /** The part of an instance; also of a part's own id. Units and frames have none. */
  readonly partByPiece: ReadonlyMap<string, Part>
  /** Groups of pieces that are placed as one. */
  readonly assemblies: ReadonlyMap<string, Assembly>
  readonly joints: ReadonlyMap<string, Joint>
  readonly ownJoints: ReadonlyMap<string, OwnJoint>
  readonly ownJointsByBore: ReadonlyMap<string, readonly OwnJoint[]>
  readonly jointsThrough: ReadonlyMap<string, readonly Joint[]>
  readonly cables: ReadonlyMap<string, Cable>
  readonly cableByEnd: ReadonlyMap<string, Cable>
  readonly cableMoves: CableMoves
  readonly sockets: ReadonlyMap<string, Socket>
  readonly passages: ReadonlyMap<string, Passage>
  readonly ties: ReadonlyMap<string, Tie>
  readonly pads: ReadonlyMap<string, Pad>
  /** Ties by each id that they hold, and pads by what they stick to. */
  readonly tiesHolding: ReadonlyMap<string, readonly Tie[]>
  readonly padsOn: ReadonlyMap<string, readonly Pad[]>
  /** Sockets by the end or cable that belongs in them. */
  readonly socketsTaking: ReadonlyMap<string, readonly Socket[]>
  /** Instances that hide the thing with this id once they are in place. */
  readonly coversOf: ReadonlyMap<string, readonly string[]>
  /** Instances in the way, by `insertion` and the instance, or `driver` and the joint. */
  readonly blockersOf: ReadonlyMap<string, readonly string[]>
  /** Instances that a joint or a tie of the steps holds. */
  readonly heldPieces: ReadonlySet<string>
  /** Acts of the arrival and of all steps by verb and target. */
  readonly acts: ReadonlyMap<string, readonly Act[]>
  readonly allActs: readonly Act[]
  /** Instances that an act moves, where its count makes them fewer than it names. */
  readonly allotted: ReadonlyMap<Act, readonly string[]>
  /** Verbs of acts that were written and left out of the kit. */
  readonly leftOut: ReadonlySet<Verb>
  /** Instances that are hinged or sliding, by their own word or because an act opens or closes them. */
  readonly leaves: ReadonlySet<string>
  /** Units and cables that can be isolated, with the fact that they are once verified or isolated. */
  readonly live: ReadonlySet<string>
  readonly isolated: ReadonlySet<string>
  readonly verified: ReadonlySet<string>
  /** What some act turns: ids, or `all`. */
  readonly turned: ReadonlySet<string>
  /** Pads and joints that cure, and what each act of waiting does for them. */
  readonly rests: Rests
  readonly curingPads: readonly Pad[]
}

/** Indexes the kit. Linear in its size. */
export function buildLookup(kit: Kit, fit: Fit): Lookup {
  const allActs = [...kit.arrives, ...kit.steps.flatMap(({ acts }) => acts)]
  const partByPiece = new Map<string, Part>()
  for (const part of kit.parts) for (const piece of [part.id, ...part.instances]) partByPiece.set(piece, part)
  const targetsOf = (...verbs: readonly Verb[]) =>
    new Set(allActs.flatMap(({ verb, target }) => (verbs.includes(verb) && target !== "" ? [target] : [])))
  const cableByEnd = new Map(kit.cables.flatMap((cable) => cable.ends.map(({ id }) => [id, cable])))
  const pads = byId(kit.pads)
  const powered = kit.units.filter(({ isPowered }) => isPowered).map(({ id }) => id)
  return {
    kit,
    instancesById: new Map([
      ...kit.instances.map(({ id }): [string, readonly string[]] => [id, [id]]),
      ...[...kit.units, ...kit.frames, ...kit.parts, ...kit.pads].map(
        ({ id, instances }): [string, readonly string[]] => [id, instances],
      ),
    ]),
    partByPiece,
    assemblies: byId(kit.assemblies),
    joints: byId(kit.joints),
    ownJoints: byId(kit.ownJoints),
    ownJointsByBore: groupBy(kit.ownJoints, ({ bore }) => (bore === undefined ? [] : [bore])),
    jointsThrough: groupBy(kit.joints, ({ through }) => through),
    cables: byId(kit.cables),
    cableByEnd,
    cableMoves: indexMoves(kit, allActs, cableByEnd),
    sockets: byId(kit.sockets),
    passages: byId(kit.passages),
    ties: byId(kit.ties),
    pads,
    tiesHolding: groupBy(kit.ties, ({ holds }) => [...new Set(holds)]),
    padsOn: groupBy(kit.pads, ({ on }) => [on]),
    socketsTaking: groupBy(kit.sockets, ({ takes }) => (takes === undefined ? [] : [takes])),
    coversOf: indexCovers(kit),
    blockersOf: indexBlockers(kit, fit, partByPiece),
    heldPieces: new Set([
      ...kit.joints.flatMap(({ through }) => through),
      ...kit.ties.flatMap(({ holds }) => holds),
      ...screwedOnAgain(kit, allActs),
    ]),
    acts: groupBy(allActs, ({ verb, target }) => [
      `${verb === "place" && pads.has(target) && !partByPiece.has(target) ? "stick" : verb} ${target}`,
    ]),
    allActs,
    allotted: allotInstances(allActs),
    leftOut: new Set(findLeftOut(kit).map(({ verb }) => verb)),
    leaves: new Set([
      ...kit.parts.filter(({ opens }) => opens).flatMap(({ instances }) => instances),
      ...allActs.flatMap(({ verb, instances }) => (verb === "open" || verb === "close" ? instances : [])),
    ]),
    live: new Set([...powered, ...targetsOf("isolate", "restore")]),
    isolated: targetsOf("isolate"),
    verified: targetsOf("verify"),
    turned: targetsOf("turn"),
    rests: findRests(kit),
    curingPads: kit.pads.filter(({ cureMinutes }) => cureMinutes !== undefined),
  }
}

/** Acts with this verb and target, arrival first, then in the order of the steps; to place a pad is to stick it on. */
export function actsOn(lookup: Lookup, verb: Verb, target: string): readonly Act[] {
  return lookup.acts.get(`${verb} ${target}`) ?? []
}

/** Instances an id stands for: itself, those of a part, unit or frame; none for anything else. */
export function instancesOf(lookup: Lookup, id: string): readonly string[] {
  return lookup.instancesById.get(id) ?? []
}

/** Instances that an act moves, or those of its target when the act names none. */
export function movedInstances(lookup: Lookup, act: Act): readonly string[] {
  if (act.instances.length === 0) return instancesOf(lookup, act.target)
  return lookup.allotted.get(act) ?? act.instances
}

/** `place: 1 x saddle` twice moves one copy after the other: each such act takes the next ones, as many as its count. */
function allotInstances(acts: readonly Act[]): ReadonlyMap<Act, readonly string[]> {
  const allotted = new Map<Act, readonly string[]>()
  const taken = new Map<string, number>()
  for (const act of acts) {
    const { verb, target, instances, count } = act
    if (count === undefined || count < 1 || count >= instances.length) continue
    const key = `${verb} ${target}`
    const from = (taken.get(key) ?? 0) % instances.length
    allotted.set(act, [...instances, ...instances].slice(from, from + count))
    taken.set(key, from + count)
  }
  return allotted
}

/** Pieces of units that their own screws hold, where an act starts those again. */
function screwedOnAgain(kit: Kit, acts: readonly Act[]): readonly string[] {
  const started = new Set(acts.flatMap(({ verb, target }) => (verb === "start" ? [target] : [])))
  return kit.ownJoints.filter(({ id }) => started.has(id)).flatMap((own) => pieceHeldBy(kit.parts, own)?.id ?? [])
}

function indexCovers(kit: Kit): ReadonlyMap<string, readonly string[]> {
  const covers = new Map<string, string[]>()
  for (const thing of [...kit.parts, ...kit.units])
    for (const hidden of thing.covers) covers.set(hidden, [...(covers.get(hidden) ?? []), ...thing.instances])
  return covers
}

/** Only pieces that an act can put on or take off: what always stands in the way is no matter of order. */
function indexBlockers(
  kit: Kit,
  fit: Fit,
  partByPiece: ReadonlyMap<string, Part>,
): ReadonlyMap<string, readonly string[]> {
  const acts = [...kit.arrives, ...kit.steps.flatMap((step) => step.acts)]
  const moved = new Set(acts.flatMap(({ verb, instances }) => (verb === "place" || verb === "remove" ? instances : [])))
  const blockers = new Map<string, string[]>()
  for (const { kind, subject, blocker } of fit.blockers) {
    if (kind === "overlap" || !moved.has(blocker) || !partByPiece.has(blocker)) continue
    const key = `${kind} ${subject}`
    const known = blockers.get(key)
    if (known === undefined) blockers.set(key, [blocker])
    else if (!known.includes(blocker)) known.push(blocker)
  }
  return blockers
}

function byId<Thing extends { readonly id: string }>(things: readonly Thing[]): ReadonlyMap<string, Thing> {
  return new Map(things.map((thing) => [thing.id, thing]))
}

function groupBy<Thing>(
  things: readonly Thing[],
  keysOf: (thing: Thing) => readonly string[],
): ReadonlyMap<string, readonly Thing[]> {
  const groups = new Map<string, Thing[]>()
  for (const thing of things)
    for (const key of keysOf(thing)) {
      const group = groups.get(key)
      if (group === undefined) groups.set(key, [thing])
      else group.push(thing)
    }
  return groups
}
