/** One set-up at a time: a folder that only one process can make, with the owner's process number in it. */
import { mkdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { setTimeout as sleep } from "node:timers/promises"
import { root } from "./places.mjs"

const lock = join(root, ".setup-lock")

/** Runs `work` when no other set-up runs; waits for the other otherwise. A lock of a dead process is taken over. */
export async function withLock(work, say) {
  for (let tries = 0; !takeLock(); tries += 1) {
    if (tries === 0) say("Another set-up is running here; waiting for it")
    if (isOwnerGone()) moveAway()
    await sleep(300)
  }
  try {
    await work()
  } finally {
    rmSync(lock, { recursive: true, force: true })
  }
}

function takeLock() {
  try {
    mkdirSync(lock)
  } catch (fault) {
    if (fault.code === "EEXIST") return false
    throw fault
  }
  writeFileSync(join(lock, "owner"), String(process.pid))
  return true
}

/** A lock without a number is being taken at this moment; after ten seconds its owner died within that moment. */
function isOwnerGone() {
  const seconds = (Date.now() - (statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now())) / 1000
  try {
    const owner = Number(readFileSync(join(lock, "owner"), "utf8"))
    if (owner === 0) return seconds > 10
    process.kill(owner, 0)
    return false
  } catch (fault) {
    return fault.code === "ESRCH" || (fault.code === "ENOENT" && seconds > 10)
  }
}

/** Renaming is what only one of several waiting processes can do. */
function moveAway() {
  const away = `${lock}-${process.pid}`
  try {
    renameSync(lock, away)
  } catch (fault) {
    if (fault.code !== "ENOENT") throw fault
    return
  }
  rmSync(away, { recursive: true, force: true })
}
