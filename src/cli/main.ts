#!/usr/bin/env node
/** The command line: reads words, calls one operation of `build`, shows what it gives, ends with 0, 1 or 2. */
import { realpathSync, statSync } from "node:fs"
import { join } from "node:path"
import { Command, CommanderError } from "commander"
import { nearNames } from "../findings/near.ts"
import { type CommandName, commandNames, helpOf } from "./help.ts"
import { exitCodeOf, joinBlocks, makePaint, makeProgress, showBuild, showCheck, showFindings } from "./show.ts"
import { sayFileFault, sayUsageFault } from "./usage.ts"

/** A mistake in calling the program that is found only while it runs. */
class UsageFault extends Error {}

type Options = {
  readonly json?: boolean
  readonly strict?: boolean
  readonly out?: string
  readonly unit?: string
  readonly variant?: string
  readonly svg?: string
  readonly dot?: string
  readonly repair?: boolean
  readonly write?: boolean
}

/** Everything that works on kits, loaded only by a command that does: help and mistakes in calling come at once. */
const loadOperations = (): Promise<typeof import("../build/index.ts")> => import("../build/index.ts")

/** The words for orders need some of it too. */
const loadOrderWords = (): Promise<typeof import("./order.ts")> => import("./order.ts")

const say = (text: string): void => void process.stdout.write(text)
const tell = (text: string): void => void process.stderr.write(text)

/** Folders of kits that the words name; a word that names no folder ends the run. */
async function listKits(words: readonly string[]): Promise<readonly string[]> {
  for (const word of words) {
    const facts = statSync(word, { throwIfNoEntry: false })
    if (facts === undefined) throw new UsageFault(`There is no folder \`${word}\`.`)
    if (!facts.isDirectory()) throw new UsageFault(`\`${word}\` is not a folder; name the folder that holds kit.yaml.`)
  }
  const { findKitFolders } = await loadOperations()
  const folders = words.flatMap(findKitFolders)
  // One folder named twice is built once.
  return [...new Map(folders.map((folder) => [realpathSync(folder), folder])).values()]
}

async function check(folders: readonly string[], { json, strict }: Options): Promise<number> {
  const progress = makeProgress(process.stderr)
  const kits = await listKits(folders)
  const { checkKit } = await loadOperations()
  const results = []
  for (const folder of kits) {
    results.push(await checkKit(folder, progress.on))
  }
  progress.clear()
  if (json === true) say(toJson(results.map(({ files: _, ...rest }) => rest)))
  else say(joinBlocks(results.map((result) => [showFindings(result, paint), showCheck(result)])))
  return Math.max(...results.map(({ findings }) => exitCodeOf(findings, strict === true)))
}

async function build(folders: readonly string[], { json, strict, out = "out" }: Options): Promise<number> {
  if (out === "") throw new UsageFault("`--out` needs a value. See `kitleaf build --help`.")
  const progress = makeProgress(process.stderr)
  const kits = await listKits(folders)
  const { buildKits, isForeignIndex } = await loadOperations()
  if (isForeignIndex(out)) {
    throw new UsageFault(`\`${out}/index.html\` was not made by kitleaf; name another folder with \`--out\`.`)
  }
  stopOnSignals(progress.clear)
  const results = await buildKits(kits, out, { env: process.env, onProgress: progress.on })
  progress.clear()
  const printProblem = results.find((result) => result.printProblem !== undefined)?.printProblem
  if (json === true) say(toJson(results.map(({ files: _, ...rest }) => rest)))
  else {
    say(joinBlocks(results.map((result) => [showFindings(result, paint), showBuild(result)])))
    say(`Open ${join(out, "index.html")}\n`)
  }
  if (printProblem !== undefined) tell(`No PDF files were made. ${printProblem}\n`)
  const hasMissingPages = results.some((result) => result.results.some(({ state }) => state === "pages-missing"))
  return Math.max(hasMissingPages ? 1 : 0, ...results.map(({ findings }) => exitCodeOf(findings, strict === true)))
}

/** A build that is told to stop ends between two steps, so that every folder is wholly old or wholly new. */
function stopOnSignals(clear: () => void): void {
  const codes = { SIGINT: 130, SIGTERM: 143 }
  for (const signal of ["SIGINT", "SIGTERM"] as const) {
    process.once(signal, () => {
      clear()
      tell("Stopped. Variants that were not finished keep the documents they had.\n")
      process.exit(codes[signal])
    })
  }
}

async function order(word: string, options: Options): Promise<number> {
  const [folder, other] = await listKits([word])
  if (folder === undefined || other !== undefined) {
    throw new UsageFault(`\`${word}\` holds several kits; name the folder of one.`)
  }
  if (options.repair === true) return await repair(folder, options)
  if (options.write === true) throw new UsageFault("`--write` goes with `--repair`. See `kitleaf order --help`.")
  const { json, variant } = options
  const progress = makeProgress(process.stderr)
  const { orderKit, writeOrderGraphs } = await loadOperations()
  const result = await orderKit(folder, variant, progress.on)
  progress.clear()
  if (variant !== undefined && result.variants.length > 0 && !result.variants.includes(variant)) {
    const near = nearNames(variant, result.variants)
    const known =
      near.length > 0 ? `did you mean \`${near.join("`, `")}\`` : `it has \`${result.variants.join("`, `")}\``
    throw new UsageFault(`The kit has no variant \`${variant}\`; ${known}.`)
  }
  const written = writeOrderGraphs(result, options)
  if ("problem" in written) throw new UsageFault(written.problem)
  if (json === true) say(toJson(withoutFiles(result)))
  else {
    say(joinBlocks([[showFindings(result, paint), (await loadOrderWords()).showOrder(result, paint)]]))
    for (const file of written.files) say(`wrote ${file}\n`)
  }
  return exitCodeOf(result.findings, false)
}

async function repair(folder: string, { json, write, variant, svg, dot }: Options): Promise<number> {
  const unfit = Object.entries({ variant, svg, dot }).find(([, value]) => value !== undefined)?.[0]
  if (unfit !== undefined) {
    throw new UsageFault(`\`--${unfit}\` does not go with \`--repair\`, which mends all variants together.`)
  }
  const progress = makeProgress(process.stderr)
  const { repairKit } = await loadOperations()
  const result = await repairKit(folder, { isWritten: write === true, onProgress: progress.on })
  progress.clear()
  const findings = [...result.findings, ...result.refusals]
  if (json === true) say(toJson(withoutFiles(result)))
  else
    say(
      joinBlocks([[showFindings({ ...result, findings }, paint), (await loadOrderWords()).showRepair(result, paint)]]),
    )
  if (result.isWritten) return exitCodeOf(result.stillOpen, false)
  return result.problem !== undefined ? 1 : exitCodeOf(findings, false)
}

const withoutFiles = <Result extends { readonly files: unknown }>({
  files: _,
  ...rest
}: Result): Omit<Result, "files"> => rest

async function measure(file: string, { json, unit }: Options): Promise<number> {
  const { measureFile } = await loadOperations()
  const measured = measureFile(file, unit)
  if ("problem" in measured) {
    tell(`${measured.problem}\n`)
    return 1
  }
  say(json === true ? toJson(measured.facts) : measured.yaml)
  return 0
}

async function start(name: string): Promise<number> {
  const { newKit } = await loadOperations()
  const made = newKit(name)
  if ("problem" in made) {
    tell(`${made.problem}\n`)
    return 1
  }
  say(`${made.file} is a kit that passes. Change it, then: kitleaf check ${name}\n`)
  return 0
}

async function schema(folder: string): Promise<number> {
  await listKits([folder])
  const { writeSchemas } = await loadOperations()
  const written = writeSchemas(folder)
  say(written.map((file) => `wrote ${file}\n`).join(""))
  return 0
}

/** Declares the commands; `done` takes the exit code of the one that ran. */
function declareCommands(program: Command, done: (code: number) => void): void {
  const declare = (name: CommandName, argument: string): Command => {
    const command = program.command(`${name} ${argument}`).helpOption("--help")
    command.configureHelp({ formatHelp: () => helpOf(name) })
    return command
  }
  declare("new", "<name>").action(async (name: string) => done(await start(name)))
  declare("check", "<folder...>")
    .option("--strict")
    .option("--json")
    .action(async (folders: readonly string[], options: Options) => done(await check(folders, options)))
  declare("order", "<folder>")
    .option("--variant <id>")
    .option("--svg <file>")
    .option("--dot <file>")
    .option("--repair")
    .option("--write")
    .option("--json")
    .action(async (folder: string, options: Options) => done(await order(folder, options)))
  declare("build", "<folder...>")
    .option("--out <folder>")
    .option("--strict")
    .option("--json")
    .action(async (folders: readonly string[], options: Options) => done(await build(folders, options)))
  declare("measure", "<file>")
    .option("--unit <unit>")
    .option("--json")
    .action(async (file: string, options: Options) => done(await measure(file, options)))
  declare("schema", "<folder>").action(async (folder: string) => done(await schema(folder)))
}

async function run(words: readonly string[]): Promise<number> {
  let code = 0
  const program = new Command("kitleaf")
    .option("--version")
    .helpOption("--help")
    .helpCommand(false)
    .configureHelp({ formatHelp: () => helpOf(undefined) })
    .configureOutput({ writeErr: () => undefined })
    .exitOverride()
  declareCommands(program, (ended) => {
    code = ended
  })
  const command = commandNames.find((name) => name === words.find((word) => !word.startsWith("-")))
  if (words[0] === "--version") {
    say(`${(await loadOperations()).readPackageVersion()}\n`)
    return 0
  }
  if (words.length === 0) {
    tell(helpOf(undefined))
    return 2
  }
  try {
    await program.parseAsync(words, { from: "user" })
    return code
  } catch (fault) {
    if (fault instanceof UsageFault) {
      tell(`${fault.message}\n`)
      return 2
    }
    if (!(fault instanceof CommanderError)) throw fault
    if (fault.exitCode === 0) return 0
    const written = /'([^' ]+)/.exec(fault.message)?.[1] ?? ""
    tell(`${sayUsageFault(fault.code, written, command)}\n`)
    return 2
  }
}

const toJson = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`
const paint = makePaint(process.stdout, process.env)

// A reader that stops reading (`kitleaf build x | head`) takes nothing away from the work, nor from how it ends.
process.stderr.on("error", () => undefined)
process.stdout.on("error", (fault: NodeJS.ErrnoException) => {
  if (fault.code === "EPIPE") return
  tell(`The results could not be written. ${sayFileFault(fault) ?? ""}\n`)
  process.exit(2)
})
try {
  process.exitCode = await run(process.argv.slice(2))
} catch (fault) {
  tell(`${sayFileFault(fault) ?? `kitleaf is at fault: ${fault instanceof Error ? fault.message : String(fault)}`}\n`)
  process.exitCode = 2
}
