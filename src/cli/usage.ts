/** Mistakes in calling the program, in our own words. */
import { nearNames } from "../findings/near.ts"
import { type CommandName, commandNames } from "./help.ts"

const optionsOf: Readonly<Record<CommandName, readonly string[]>> = {
  new: ["--help"],
  check: ["--strict", "--json", "--help"],
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
    const what = { new: "a name", check: "a folder", build: "a folder", measure: "a file", schema: "a folder" }
    return `\`${called}\` needs ${command === undefined ? "a command" : what[command]}. ${more}`
  }
  if (code === "commander.optionMissingArgument") return `\`${written}\` needs a value. ${more}`
  return `\`${called}\` was not understood. ${more}`
}

function sayNear(written: string, known: readonly string[]): string {
  const [nearest] = nearNames(written, known)
  return nearest === undefined ? "" : `; did you mean \`${nearest}\``
}
