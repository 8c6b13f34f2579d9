/** A small kit that loads without a finding; tests change one thing of it at a time. Invented. */
export const baseKit = `kit: arm
title: Arm
revision: { id: A, date: 2026-01-01 }
host:
  gauge:
    shape: { box: 60 x 40 x 30 }
    bores:
      foot: { thread: M4, in: aluminium, depth: 9 }
    sockets: { power: {} }
  mast: { tube: round 32 }
parts:
  plate: { shape: { plate: 80 x 60 x 6 }, plastic: PETG, copies: 2 }
  hood: { shape: { box: 80 x 60 x 20 }, plastic: PETG, covers: gauge.power }
cables:
  lead: { length: 600, ends: { plug: 12 x 9, inner: fixed } }
passages:
  hood-hole: { in: hood, opening: 14 x 10 }
joints:
  foot: { screws: 2 x ISO 4762 M4x14, through: plate, into: gauge.foot, torque: 0.5 }
ties:
  clamp: { ties: 4 x 4.8x300, holds: plate, round: mast }
pads:
  grip: { pads: 2 x 60 x 20 x 1.5, on: plate }
steps:
  plate:
    do: [place: plate, start: foot, tighten: foot]
    text: Tighten the [](joint:foot).
  mast:
    do: [stick: grip, strap: clamp, trim: clamp]
  lead:
    do:
      - feed: lead.plug through hood-hole
      - connect: lead.plug to gauge.power
`

/** Gives the kit with one piece of text put in place of another; the piece must occur exactly once. */
export function change(from: string, to: string, kit = baseKit): string {
  if (kit.split(from).length !== 2) throw new Error(`"${from}" stands ${kit.split(from).length - 1} times in the kit`)
  return kit.replace(from, () => to)
}
