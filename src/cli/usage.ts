/** Mistakes in calling the program, in our own words. */
import { nearNames } from "../findings/near.ts"
import { type CommandName, commandNames } from "./help.ts"

const optionsOf: Readonly<Record<CommandName, readonly string[]>> = {
  new: ["--help"],
  check: ["--strict", "--json", "--help"],
  order: ["--variant", "--svg", "--dot", "--repair", "--write", "--json", "--help"],
  build: ["--out", "--strict", "--json", "--help"],
  measure: ["--unit", "--json", "--help"],
  schema: ["--help"],
}

/**
 * Words a mistake by the code that the command-line library gives it. `written` is what it quotes; `command` the one
 * that was called, when there is one.
 */
export function sayUsageFault(code: string, written: string, command: CommandName | undefined): string {
  const called = command === undefined ? "kitleaf" : `kitleaf ${command}`
  const more = `See \`${called} --help\`.`
  if (code === "commander.unknownOption") {
    const options = command === undefined ? ["--help", "--version"] : optionsOf[command]
    return `\`${written}\` is not an option of \`${called}\`${sayNear(written, options)}. ${more}`
  }
  if (code === "commander.unknownCommand" || code === "commander.excessArguments") {
    if (command !== undefined) return `\`${called}\` takes one name, more are given. ${more}`
    return `\`${written}\` is not a command of kitleaf${sayNear(written, commandNames)}. ${more}`
  }
  if (code === "commander.missingArgument") {
    const what = {
      new: "a name",
      check: "a folder",
      order: "a folder",
      build: "a folder",
      measure: "a file",
      schema: "a folder",
    }
    return `\`${called}\` needs ${command === undefined ? "a command" : what[command]}. ${more}`
  }
  if (code === "commander.optionMissingArgument") return `\`${written}\` needs a value. ${more}`
  return `\`${called}\` was not understood. ${more}`
}

/** Words for what a system call gives when a file cannot be read or written; undefined for any other fault. */
export function sayFileFault(fault: unknown): string | undefined {
  if (!(fault instanceof Error) || !("code" in fault)) return undefined
  // Of a renaming, the name that is aimed at stands in the way, not the one that is moved.
  const [named] = ["dest", "path"].flatMap((key) => (key in fault ? [String(fault[key as keyof typeof fault])] : []))
  const path = named === undefined ? "a file" : `\`${named}\``
  const words: Readonly<Record<string, string>> = {
    EACCES: `${path} cannot be read or written with the rights of this user.`,
    EPERM: `${path} cannot be read or written with the rights of this user.`,
    EROFS: `${path} is on a disk that cannot be written.`,
    ENOSPC: "The disk is full.",
    EEXIST: `${path} is in the way: it is a file where a folder is needed.`,
    ENOTDIR: `${path} is in the way: a folder is needed there.`,
    ENOENT: `${path} is not there, or went away while it was needed.`,
    EISDIR: `${path} is in the way: it is a folder where a file is needed.`,
    ENAMETOOLONG: `The name of ${path} is too long for this disk.`,
  }
  if ("syscall" in fault) return words[String(fault.code)] ?? `${path} cannot be read or written (${fault.code}).`
  return undefined
}

function sayNear(written: string, known: readonly string[]): string {
  const [nearest] = nearNames(written, known)
  return nearest === undefined ? "" : `; did you mean \`${nearest}\``
}
