import { spawn } from "node:child_process"
import { readdirSync, writeFileSync } from "node:fs"
import { hostname } from "node:os"
import { join } from "node:path"
import { setTimeout as sleep } from "node:timers/promises"
import { expect, test } from "vitest"
import { takeLock } from "../../src/build/lock.ts"
import { buildWith } from "../../src/build/run-build.ts"
import { makeStubStages } from "./stub-stages.mjs"
import { makeTempFolder } from "./temp-folder.ts"

const host = hostname().replace(/[^A-Za-z0-9]/g, "_")

test("the second waits, says for whom, and goes on when the first is done", async () => {
  const folder = makeTempFolder()
  const told: string[] = []
  const order: string[] = []
  const releaseFirst = await takeLock(folder, () => undefined)
  const second = takeLock(folder, (holder) => told.push(holder)).then((release) => {
    order.push("second has it")
    release()
  })
  await sleep(50)
  order.push("first is done")
  releaseFirst()
  await second
  expect(order).toEqual(["first is done", "second has it"])
  expect(told).toEqual([`process ${process.pid}`])
  expect(readdirSync(folder)).toEqual([])
})

test("of many at once, never two have it", async () => {
  const folder = makeTempFolder()
  let holders = 0
  let most = 0
  await Promise.all(
    Array.from({ length: 12 }, async () => {
      const release = await takeLock(folder, () => undefined)
      holders += 1
      most = Math.max(most, holders)
      await sleep(5)
      holders -= 1
      release()
    }),
  )
  expect(most).toBe(1)
})

test("the lock of a process that is gone is taken over", async () => {
  const folder = makeTempFolder()
  const gone = spawn(process.execPath, ["-e", ""])
  await new Promise((resolve) => gone.on("exit", resolve))
  writeFileSync(join(folder, `lock-${host}-${gone.pid}-123-1`), "")
  const release = await takeLock(folder, () => expect.unreachable())
  release()
})

test.runIf(process.platform === "linux")(
  "a number that went to another process is not taken for the owner",
  async () => {
    const folder = makeTempFolder()
    // This process lives, but did not begin one tick after the machine started.
    writeFileSync(join(folder, `lock-${host}-${process.pid}-1-1`), "")
    const release = await takeLock(folder, () => expect.unreachable())
    release()
  },
)

test("a lock of another machine is respected", async () => {
  const folder = makeTempFolder()
  const waited = new Promise<string>((resolve) => {
    void takeLock(folder, resolve).then((release) => release())
    writeFileSync(join(folder, "lock-elsewhere-1-1-1"), "")
  })
  const { rmSync } = await import("node:fs")
  const told = await Promise.race([waited, sleep(2000).then(() => "nothing was told")])
  rmSync(join(folder, "lock-elsewhere-1-1-1"))
  expect(["process 1 on elsewhere", "nothing was told"]).toContain(told)
})

test("two builds into one folder: the second says that it waits, both end well", async () => {
  const kit = makeTempFolder()
  const out = makeTempFolder()
  writeFileSync(join(kit, "kit.yaml"), "kit: stub\n")
  const tasks: string[] = []
  const slow = makeStubStages(() => 1, ["one"])
  const openPrinter: typeof slow.openPrinter = async () => {
    await sleep(200)
    return { problem: "none" }
  }
  const first = buildWith({ ...slow, openPrinter }, [kit], out, () => undefined)
  await sleep(20)
  const second = buildWith(
    makeStubStages(() => 2, ["one"]),
    [kit],
    out,
    ({ task }) => tasks.push(task),
  )
  const results = [...(await first), ...(await second)].map(({ results: [one] }) => one?.state)
  expect(results).toEqual(["pages-missing", "built"])
  expect(tasks[0]).toBe(`waiting for another build (process ${process.pid})`)
})
