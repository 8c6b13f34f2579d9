import { beforeAll, describe, expect, test } from "vitest"
import { loadKernel, moveMesh, poseFrom, readStl, signedVolumeMm3, writeStl } from "../../src/solids/index.ts"
import type { Kernel, Mesh } from "../../src/solids/types.ts"
import { box, given, meshOf, plateWithHoles, seeded } from "./shapes.ts"

let kernel: Kernel
let cube: Mesh
beforeAll(async () => {
  kernel = await loadKernel()
  cube = box(kernel, [20, 20, 20])
})

const encode = (text: string): Uint8Array => new TextEncoder().encode(text)

/** The text form as programs write it. */
function asText(mesh: Mesh, number = (value: number) => value.toExponential(6)): string {
  const lines = ["solid piece"]
  for (let start = 0; start < mesh.triangles.length; start += 3) {
    lines.push("  facet normal 0 0 0", "    outer loop")
    for (const vertex of mesh.triangles.slice(start, start + 3)) {
      const point = mesh.positions.slice(vertex * 3, vertex * 3 + 3)
      lines.push(`      vertex ${[...point].map(number).join(" ")}`)
    }
    lines.push("    endloop", "  endfacet")
  }
  return `${[...lines, "endsolid piece"].join("\n")}\n`
}

function problemOf(bytes: Uint8Array): string {
  const read = readStl(bytes, "clamp.stl")
  return "problem" in read ? `${read.problem.kind}: ${read.problem.message}` : "no problem"
}

/** Turns some triangles of a mesh inside out. */
function turnSome(mesh: Mesh, picks: (triangle: number) => boolean): Mesh {
  const triangles = mesh.triangles.slice()
  for (let triangle = 0; triangle < triangles.length / 3; triangle += 1) {
    if (!picks(triangle)) continue
    const [second = 0, third = 0] = triangles.slice(triangle * 3 + 1, triangle * 3 + 3)
    triangles.set([third, second], triangle * 3 + 1)
  }
  return { positions: mesh.positions, triangles }
}

describe("both forms", () => {
  test("binary: written, read, welded to the vertices of the solid", () => {
    const mesh = kernel.make(plateWithHoles)
    const read = meshOf(writeStl(mesh))
    expect(read.triangles.length).toBe(mesh.triangles.length)
    expect(read.positions.length).toBe(mesh.positions.length)
    expect(signedVolumeMm3(read)).toBeCloseTo(signedVolumeMm3(mesh), 6)
  })

  test("text: line ends, tabs, capitals and indentation do not matter", () => {
    const text = asText(cube)
    for (const variant of [text, text.replaceAll("\n", "\r\n"), text.replaceAll("  ", "\t").toUpperCase()]) {
      expect(signedVolumeMm3(meshOf(encode(variant)))).toBeCloseTo(8000, 6)
    }
  })

  test("a binary file whose header begins with `solid` is binary", () => {
    const bytes = writeStl(cube)
    bytes.set(encode("solid made by a program\nfacet".padEnd(80)))
    expect(signedVolumeMm3(meshOf(bytes))).toBeCloseTo(8000, 6)
  })

  test("a binary file with data behind its triangles is read", () => {
    const bytes = writeStl(cube)
    const longer = new Uint8Array(bytes.length + 30)
    longer.set(bytes)
    expect(signedVolumeMm3(meshOf(longer))).toBeCloseTo(8000, 6)
  })

  test("bytes that are part of a larger buffer are read from their own start", () => {
    const bytes = writeStl(cube)
    const larger = new Uint8Array(bytes.length + 7)
    larger.set(bytes, 7)
    expect(signedVolumeMm3(meshOf(larger.subarray(7)))).toBeCloseTo(8000, 6)
  })

  test("inches and metres become millimetres before the corners are welded", () => {
    const metre = moveMesh(cube, { rotation: [0.001, 0, 0, 0, 0.001, 0, 0, 0, 0.001], at: [0, 0, 0] })
    const read = readStl(writeStl(metre), "piece.stl", 1000)
    expect("mesh" in read ? signedVolumeMm3(read.mesh) : 0).toBeCloseTo(8000, 2)
  })

  test("equal meshes give equal bytes", () => {
    expect(writeStl(kernel.make(plateWithHoles))).toEqual(writeStl(kernel.make(plateWithHoles)))
  })
})

describe("welding", () => {
  test("corners up to 0.0001 mm apart are one, also across the border of a cell; 0.001 mm apart they are not", () => {
    const shake = (byMm: number): Uint8Array => {
      const random = seeded(3)
      const moved = cube.triangles.length
      const corners = Array.from(cube.triangles, (vertex) => [...cube.positions.slice(vertex * 3, vertex * 3 + 3)])
      const loose = corners.flat().map((value) => value + (random() - 0.5) * byMm)
      const triangles = Uint32Array.from({ length: moved }, (_, index) => index)
      return encode(asText({ positions: Float64Array.from(loose), triangles }, (value) => value.toFixed(7)))
    }
    expect(meshOf(shake(0.00005)).positions.length / 3).toBe(8)
    expect(problemOf(shake(0.004))).toMatch(/^not-closed/)
  })

  test("triangles without extent are dropped", () => {
    const text = asText(cube).replace(
      "endsolid piece",
      "facet normal 0 0 0\nouter loop\nvertex 1 1 1\nvertex 1 1 1\nvertex 2 2 2\nendloop\nendfacet\nendsolid",
    )
    expect(meshOf(encode(text)).triangles.length).toBe(cube.triangles.length)
  })
})

describe("files that cannot be used say why", () => {
  const cases: readonly (readonly [string, () => Uint8Array, RegExp])[] = [
    ["empty", () => new Uint8Array(), /^unreadable: `clamp.stl` is empty$/],
    ["40 bytes", () => new Uint8Array(40), /^unreadable: `clamp.stl` has 40 bytes, an STL file has at least 84$/],
    ["zeros", () => new Uint8Array(200), /^unreadable: `clamp.stl` is no STL file/],
    ["no triangle", () => new Uint8Array(84), /^unreadable: `clamp.stl` holds no triangle$/],
    ["another format", () => encode("%PDF-1.7\n".padEnd(300, "x")), /^unreadable: `clamp.stl` is no STL file/],
    [
      "binary cut short",
      () => writeStl(cube).slice(0, 84 + 50 * 7 + 20),
      /^unreadable: `clamp.stl` ends after 7 of its 12 triangles$/,
    ],
    [
      "text cut short",
      () => encode(asText(cube).slice(0, 700)),
      /^unreadable: `clamp.stl` cannot be read as STL text in line \d+/,
    ],
    [
      "text without a number",
      () => encode(asText(cube).replace(/vertex \S+/, "vertex 12,5")),
      /in line 4: a vertex has three numbers$/,
    ],
    [
      "text with two corners",
      () => encode(asText(cube).replace(/ +vertex .*\n/, "")),
      /a facet has 3 vertices, this one 2$/,
    ],
    [
      "text with a corner that is no number",
      () => encode(asText(cube).replace(/vertex \S+/, "vertex nan")),
      /`clamp.stl` has a corner without a number, in triangle 1$/,
    ],
    [
      "binary with a corner that is no number",
      () => {
        const bytes = writeStl(cube)
        new DataView(bytes.buffer).setFloat32(84 + 50 + 12, Number.NaN, true)
        return bytes
      },
      /^unreadable: `clamp.stl` has a corner without a number, in triangle 2$/,
    ],
    [
      "huge",
      () => writeStl(moveMesh(cube, { rotation: [1e4, 0, 0, 0, 1e4, 0, 0, 0, 1e4], at: [0, 0, 0] })),
      /^absurd-size: `clamp.stl` is 200000/,
    ],
    [
      "tiny",
      () => writeStl(moveMesh(cube, { rotation: [1e-3, 0, 0, 0, 1e-3, 0, 0, 0, 1e-3], at: [0, 0, 0] })),
      /^absurd-size: `clamp.stl` is 0.02/,
    ],
    [
      "flat along an axis",
      () => writeStl(moveMesh(cube, { rotation: [1, 0, 0, 0, 1, 0, 0, 0, 0], at: [0, 0, 0] })),
      /^absurd-size: `clamp.stl` is a surface without thickness$/,
    ],
    [
      "flat across all axes",
      () =>
        writeStl({
          positions: Float64Array.of(9, 0, 0, 0, 9, 0, 0, 0, 9),
          triangles: Uint32Array.of(0, 1, 2, 0, 2, 1),
        }),
      /^absurd-size: `clamp.stl` is a surface without thickness$/,
    ],
    [
      "open",
      () => writeStl({ positions: cube.positions, triangles: cube.triangles.slice(3) }),
      /^not-closed: `clamp.stl` is open: 3 edges have one triangle near \(-?\d+/,
    ],
    [
      "a face twice",
      () =>
        writeStl({
          positions: cube.positions,
          triangles: Uint32Array.from([...cube.triangles, ...cube.triangles.slice(0, 3)]),
        }),
      /^not-closed: `clamp.stl` is folded: 3 edges have over two triangles near/,
    ],
  ]
  test.each(cases)("%s", (_, bytes, expected) => {
    expect(problemOf(bytes()).replaceAll("\u00a0", " ")).toMatch(expected)
  })

  test("no bytes at all, random or cut anywhere, are a fault of ours", () => {
    const whole = writeStl(cube)
    const random = seeded(11)
    for (let round = 0; round < 300; round += 1) {
      const bytes = whole.slice(0, Math.floor(random() * whole.length))
      for (let change = 0; change < 8; change += 1)
        bytes[Math.floor(random() * bytes.length)] = Math.floor(random() * 256)
      const read = readStl(bytes, "piece.stl")
      expect("mesh" in read || read.problem.message.length > 0).toBe(true)
    }
  })
})

describe("the way round", () => {
  const told = (mesh: Mesh) => {
    const read = readStl(writeStl(mesh), "clamp.stl")
    if ("problem" in read) return { volumeMm3: 0, remarks: [read.problem.message] }
    return { volumeMm3: Math.round(signedVolumeMm3(read.mesh)), remarks: read.remarks.map(({ message }) => message) }
  }

  test("right already: no remark", () => {
    expect(told(cube)).toEqual({ volumeMm3: 8000, remarks: [] })
  })

  test("inside out as a whole, or in some triangles: turned, with a remark", () => {
    expect(told(turnSome(cube, () => true))).toEqual({
      volumeMm3: 8000,
      remarks: ["`clamp.stl` has 12 of 12 triangles turned inside out"],
    })
    expect(told(turnSome(cube, (triangle) => triangle % 5 === 0))).toEqual({
      volumeMm3: 8000,
      remarks: ["`clamp.stl` has 3 of 12 triangles turned inside out"],
    })
  })

  test("a void inside stays a void, also when one of its triangles is turned", () => {
    const hollow = given(kernel.subtract(cube, [moveMesh(box(kernel, [10, 10, 10]), poseFrom([5, 5, 5], [0, 0, 0]))]))
    expect(told(hollow)).toEqual({ volumeMm3: 7000, remarks: [] })
    const last = hollow.triangles.length / 3 - 1
    expect(told(turnSome(hollow, (triangle) => triangle === last || triangle === 0)).volumeMm3).toBe(7000)
  })
})
