/**
 * Makes a fresh clone ready: npm packages, the compiled program, a browser for PDF files. Needs Node.js alone.
 * Run by `npm run demo`, `npm test` and the like; says what it is going to install before it does, and nothing
 * when all is there. `KITLEAF_SETUP=no` skips it. `node src/setup/setup.mjs compile` does no more than compile.
 */
import { browserInstalled, installBrowser, whatBrowserTakes } from "./browser.mjs"
import { compile, isCompiled } from "./compile.mjs"
import { withLock } from "./lock.mjs"
import { arePackagesInstalled, installPackages, whatPackagesTake } from "./packages.mjs"

const say = (line) => process.stderr.write(`${line}\n`)

/** Installs and compiles what is missing. A missing browser is told, not a reason to stop: HTML needs none. */
async function setUp() {
  const isCompileOnly = process.argv[2] === "compile"
  if (isCompileOnly) return compile()
  const plan = [
    ...(arePackagesInstalled() ? [] : [whatPackagesTake()]),
    ...(isCompiled() ? [] : ["compile the program into .build/"]),
    ...((await browserInstalled()) ? [] : [whatBrowserTakes()]),
  ]
  if (plan.length === 0) return
  say("Kitleaf sets itself up (skip this with KITLEAF_SETUP=no):")
  for (const line of plan) say(`  - ${line}`)
  await withLock(async () => {
    if (!arePackagesInstalled()) installPackages()
    if (!isCompiled()) compile()
    if (!(await browserInstalled())) await installBrowser(say)
  }, say)
}

if (process.env.KITLEAF_SETUP === "no") say("Set-up skipped, since KITLEAF_SETUP=no")
else {
  try {
    await setUp()
  } catch (fault) {
    say(`Set-up stopped: ${fault instanceof Error ? fault.message : String(fault)}`)
    process.exitCode = 1
  }
}
