/**
 * `npm run bench`: how long checking, drawing, repairs, HTML and PDF take, as times and as ratios within this one run.
 * The floor for a PDF is the bare browser printing the same HTML from its own command line.
 */
import { execFileSync } from "node:child_process"
import { mkdtempSync, rmSync, writeFileSync } from "node:fs"
import { tmpdir } from "node:os"
import { join } from "node:path"
import { pathToFileURL } from "node:url"
import { findPackageFolder } from "../../src/build/assets.ts"
import { findKitFolders, readKitFolder } from "../../src/build/read-kit.ts"
import { loadStages } from "../../src/build/stages.ts"
import { findBrowser, openPrinter } from "../../src/print/index.ts"
import { benchDrawing } from "./drawing.ts"
import { showTiming, timeMiddle } from "./measure.ts"
import { benchOrder } from "./order.ts"
import { benchRepair } from "./repair.ts"

const runCount = 5
const root = findPackageFolder()
const [kitFolder = ""] = findKitFolders(join(root, "guides"))
const show = (...timing: Parameters<typeof showTiming>): void => console.log(showTiming(...timing))

const stages = await loadStages(process.env)
const folder = readKitFolder(kitFolder)
const prove = (): ReturnType<typeof stages.prove> => stages.prove(folder, () => undefined)
const { proofs } = prove()
const [proof] = proofs
if (proof === undefined) throw new Error("the demo kit has no variant")

console.log(`Kit ${proof.kit.id}, ${proofs.length} variants; middle of ${runCount} runs`)
const check = await timeMiddle("check, all variants", runCount, prove)
show(check)
for (const { timing, base } of await benchOrder()) show(timing, base)
for (const timing of await benchDrawing()) show(timing)
for (const timing of await benchRepair()) show(...timing)
const { drawings } = stages.draw(proof)
show(await timeMiddle("drawings of one variant", 3, () => stages.draw(proof)), check)
const documents = stages.publish(proof, drawings)
show(await timeMiddle("all HTML of one variant", runCount, () => stages.publish(proof, drawings)), check)

const { path: browserPath, problem } = findBrowser(process.env)
if (browserPath === undefined) console.log(problem)
else await benchPrinting(browserPath)

/** One A4 guide: by the bare browser, by a printer opened for it, by a printer that has printed before. */
async function benchPrinting(browserPath: string): Promise<void> {
  const job = documents.prints.find(({ path }) => path === "guide.a4.pdf")?.job
  if (job === undefined) throw new Error("there is no A4 guide")
  const scratch = mkdtempSync(join(tmpdir(), "kitleaf-bench-"))
  const html = join(scratch, "guide.html")
  writeFileSync(html, job.html)
  const bare = await timeMiddle("PDF by the bare browser", runCount, () => {
    const sandbox = process.getuid?.() === 0 ? ["--no-sandbox"] : []
    const options = [
      "--headless",
      "--disable-gpu",
      "--no-pdf-header-footer",
      `--print-to-pdf=${join(scratch, "x.pdf")}`,
    ]
    execFileSync(browserPath, [...sandbox, ...options, pathToFileURL(html).href], { stdio: "ignore" })
  })
  show(bare)
  const cold = await timeMiddle("PDF cold: browser started, one page printed", runCount, async () => {
    const printer = await openPrinter({ browserPath, runFolder: scratch })
    await printer.print(job)
    await printer.close()
  })
  show(cold, bare)
  const printer = await openPrinter({ browserPath, runFolder: scratch })
  await printer.print(job)
  show(await timeMiddle("PDF warm: the same browser again", runCount, () => printer.print(job)), bare)
  const twice = (): Promise<unknown> => Promise.all([printer.print(job), printer.print(job)])
  show(await timeMiddle("two PDF at once, warm", runCount, twice), bare)
  await printer.close()
  rmSync(scratch, { recursive: true, force: true })
}
