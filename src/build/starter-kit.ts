/** The kit that `new` writes: small, complete, passing, with a remark where a beginner would stop. */

/** Gives the text of a `kit.yaml` for a kit of this id. */
export function writeStarterKit(id: string): string {
  return `# yaml-language-server: $schema=./kit.schema.json
# A small kit that passes. Its numbers are invented: put yours in their place, and check again after each.
kit: ${id}
title: Holder for a small logger
invented: yes # take this line away once the numbers are yours
supplier: { name: Your name, address: Your address, contact: you@example.invalid }
revision: { id: A, date: 2026-01-01, guide: https://example.invalid/${id} }
intended-use: The holder keeps one logger on a level round tube.
not-for: Do not hang anything else from the holder.
fits: { tube: round, diameter: 31.5 to 32.5, load: 0.5 kg }
variant: round-32 # a file in variants/ holds only what differs for another tube

host: # what the buyer has
  logger:
    mass: 0.3 kg
    shape: { box: 60 x 40 x 20 } # or model: logger.stl
    at: [-30, -20, 23]
    bores: { base: { thread: M4, in: aluminium, depth: 10, holes: [{ at: [30, 4, 0], along: up }, { at: [30, 36, 0], along: up }] } }
  tube: { tube: round 32, length: 200, along: x, wall: 2, material: steel }

parts: # what you make
  seat:
    plastic: PETG
    shape:
      saddle: 60 x 40 x 12
      seat: round 32
      depth: 5
      holes:
        - { diameter: 4.5, at: [30, 4, 0], along: up }
        - { diameter: 4.5, at: [30, 36, 0], along: up }
        - { size: 6 x 2.5, at: [10, 0, 8.5], along: back }
        - { size: 6 x 2.5, at: [50, 0, 8.5], along: back }
    at: [-30, -20, 11]
    goes: up
    bag: A

joints:
  base: { screws: 2 x ISO 4762 M4x20, through: seat, into: logger.base, bag: A }
ties:
  clamp: { ties: 2 x 4.8x200, holds: seat, round: tube, slot: { in: seat, size: 6 x 2.5 }, bag: A, spare: 1 }
bags: { A: { name: All parts } }

steps: # order of writing is order of doing
  seat:
    do: [place: seat, start: base, tighten: base]
    text: Put the [](part:seat) under the logger. Start the screws by hand, then tighten them to [](torque:base).
    result: The seat does not move on the logger.
  tube:
    do: [strap: clamp, trim: clamp]
    text: Set the seat on the tube. Close the [](tie:clamp) round the tube and cut the tails flush.
    result: The logger does not turn on the tube.
`
}
