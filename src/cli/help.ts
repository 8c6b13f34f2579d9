/** What `--help` says. One text a command, so that each reads as a page and not as a table of a library. */

/** Names of the commands, in the order of the help. */
export const commandNames = ["new", "check", "order", "build", "measure", "schema"] as const

export type CommandName = (typeof commandNames)[number]

const general = `kitleaf proves a mounting kit and prints its install guide.

  kitleaf new NAME             start a kit: a folder NAME with a kit.yaml that passes
  kitleaf check FOLDER...      prove all variants and tell what is found; writes nothing
  kitleaf order FOLDER         tell how free each step is to move, and how to mend an order
  kitleaf build FOLDER...      prove, then write guides, cards and drawings of what passed
  kitleaf measure FILE         size and round holes of an STL file, as YAML to paste
  kitleaf schema FOLDER        write the two schemas with which an editor completes kit.yaml

  kitleaf COMMAND --help       what a command takes
  kitleaf --version            the version

A FOLDER holds kit.yaml; one that holds several kit folders stands for all of them.
Ends with 0 when all is well, 1 when there are errors, 2 when kitleaf could not do its work.
`

const pages: Readonly<Record<CommandName, string>> = {
  new: `kitleaf new NAME

Makes a folder NAME with a kit.yaml of about 40 lines: a small kit that passes its checks, to be changed into yours.
NAME becomes the kit's id: small letters, digits and hyphens, a letter first. Nothing is overwritten.
`,
  check: `kitleaf check FOLDER... [--strict] [--json]

Proves every variant of the kit: fit, fasteners, order of work, contents of the box. Writes nothing.

  --strict   warnings count like errors in how it ends
  --json     findings as JSON on the standard output
`,
  order: `kitleaf order FOLDER [--variant ID] [--svg FILE] [--dot FILE] [--json]
kitleaf order FOLDER --repair [--write] [--json]

Tells for each step what it needs from which other step, where else it could stand and what holds it there, then how
many orders are valid. Variants with equal answers are told once. Ends with 1 when the order cannot be done.

  --variant  one variant alone
  --svg      draw the links between the steps as SVG into FILE
  --dot      write them as a graph in the DOT language into FILE
  --repair   show the fewest steps to move so that the order can be done in every variant, and why not fewer
  --write    with --repair: put the steps of kit.yaml and of its variant files into that order; comments and layout stay.
             Nothing is written when something would be lost, or when a file changed meanwhile
  --json     the same as JSON
`,
  build: `kitleaf build FOLDER... [--out FOLDER] [--strict] [--json]

Checks, then writes for each variant without errors guide.html, guide.a4.pdf, guide.letter.pdf, card.pdf, drawings/
and report.json into OUT/KIT/VARIANT/, and OUT/index.html over all kits. A variant with errors keeps the documents of
its last good build. Without a browser of the Chromium family, no PDF files are made and it ends with 1.

  --out      folder of the documents, made when it is not there (default: out)
  --strict   warnings count like errors in how it ends; documents are written all the same
  --json     findings and verdicts as JSON on the standard output

KITLEAF_BROWSER names the browser to print with, when another than the one found is wanted.
`,
  measure: `kitleaf measure FILE [--unit UNIT] [--json]

Tells size, volume and every round hole of an STL file, as YAML to paste into a kit.

  --unit     unit of the file's numbers: mm, cm, m or inch (default: mm)
  --json     the same as JSON
`,
  schema: `kitleaf schema FOLDER

Writes kit.schema.json and variant.schema.json into the kit's folder. An editor that knows JSON Schema for YAML then
completes keys and marks mistakes, when the first line of kit.yaml names the schema:

  # yaml-language-server: $schema=./kit.schema.json
`,
}

/** The page of a command, or the general one. */
export function helpOf(command: CommandName | undefined): string {
  return command === undefined ? general : pages[command]
}
