/**
 * One build at a time in one folder of documents. Every process puts a file of its own name beside the others', then
 * looks: who sees no other living owner has the lock, who sees one takes its file back and waits. Since each puts
 * its file before it looks, at least one of two sees the other. Files of dead processes are removed by anyone.
 */
import { closeSync, mkdirSync, openSync, readdirSync, readFileSync, rmSync } from "node:fs"
import { hostname } from "node:os"
import { join } from "node:path"
import { setTimeout as sleep } from "node:timers/promises"

/** `lock-<host>-<process>-<time it began>-<number within the process>` */
type Owner = { readonly host: string; readonly processId: number; readonly begun: string }

let takenCount = 0
const host = hostname().replace(/[^A-Za-z0-9]/g, "_")

/**
 * Waits for the lock of `folder` and gives the function that releases it. `onWait` is told once who holds it.
 * A lock taken on another machine counts as held: whether its owner lives cannot be seen from here.
 */
export async function takeLock(folder: string, onWait: (holder: string) => void): Promise<() => void> {
  mkdirSync(folder, { recursive: true })
  takenCount += 1
  const own = `lock-${host}-${process.pid}-${readBegin(process.pid)}-${takenCount}`
  for (let tries = 0; ; tries += 1) {
    closeSync(openSync(join(folder, own), "w"))
    const other = readdirSync(folder).find((name) => name !== own && isHeld(folder, name))
    if (other === undefined) return makeRelease(join(folder, own))
    rmSync(join(folder, own), { force: true })
    if (tries === 0) onWait(describe(folder, other))
    // Two that met would meet again without some difference between them.
    await sleep(100 + Math.random() * 200)
  }
}

/** A process that is told to stop takes its lock along. */
function makeRelease(file: string): () => void {
  const release = (): void => {
    process.off("exit", release)
    rmSync(file, { force: true })
  }
  process.on("exit", release)
  return release
}

function isHeld(folder: string, name: string): boolean {
  const owner = readOwner(name)
  if (owner === undefined) return false
  if (owner.host !== host || isAlive(owner)) return true
  rmSync(join(folder, name), { force: true })
  return false
}

function readOwner(name: string): Owner | undefined {
  const [, from = "", processId = "", begun = ""] = /^lock-(\w*)-(\d+)-(\d*)-\d+$/.exec(name) ?? []
  return processId === "" ? undefined : { host: from, processId: Number(processId), begun }
}

/** A number given to a new process after the owner died is told apart by the time the process began. */
function isAlive({ processId, begun }: Owner): boolean {
  try {
    process.kill(processId, 0)
  } catch (fault) {
    // A process of another user lives all the same.
    if (!(fault instanceof Error && "code" in fault && fault.code === "EPERM")) return false
  }
  const now = readBegin(processId)
  return begun === "" || now === "" || begun === now
}

/** Start of a process in clock ticks since the machine started, from Linux; empty where there is no such file. */
function readBegin(processId: number): string {
  try {
    const text = readFileSync(`/proc/${processId}/stat`, "utf8")
    // The name in parentheses may hold spaces; field 22 is the 20th after it.
    return text.slice(text.lastIndexOf(")") + 2).split(" ")[19] ?? ""
  } catch {
    return ""
  }
}

function describe(folder: string, name: string): string {
  const owner = readOwner(name)
  if (owner === undefined) return name
  if (owner.host === host) return `process ${owner.processId}`
  return `process ${owner.processId} on ${owner.host}; if it is gone, delete ${join(folder, name)}`
}
