/** A throw inside a stage is a fault of this program: told as a finding, with all there is to know in a file. */
import { writeFileSync } from "node:fs"
import { join } from "node:path"
import { finding } from "../findings/order.ts"
import type { Finding } from "../findings/types.ts"
import { readPackageVersion } from "./assets.ts"

/** Name of the file, in the folder of all documents. */
const faultFile = "fault.txt"

/** Rule id of such a finding; the command line ends with code 2 when there is one. */
export const toolFaultId = "tool-fault"

/** Makes the finding and writes `fault.txt` into `out`, when a folder is given. `during` names kit and variant. */
export function tellFault(out: string | undefined, fault: unknown, during: string): Finding {
  const account = fault instanceof Error ? (fault.stack ?? fault.message) : String(fault)
  const version = readPackageVersion()
  if (out !== undefined) writeFileSync(join(out, faultFile), `kitleaf ${version}, ${during}\n\n${account}\n`)
  return finding(toolFaultId, "error", {
    message: `\`${during.slice(0, 48)}\` could not be worked out; the tool is at fault, not your kit`,
    why: fault instanceof Error ? (fault.message.split("\n")[0] ?? "") : "",
    fix: out === undefined ? "report it with your kit" : `report it with your kit and \`${join(out, faultFile)}\``,
    where: { file: "kit.yaml", path: [], line: 1, column: 1, endLine: 1, endColumn: 1 },
  })
}
