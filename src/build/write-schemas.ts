/** Writes the JSON Schemas of the format beside a kit, for editors. */
import { writeFileSync } from "node:fs"
import { join } from "node:path"
import { kitSchema, variantSchema } from "../spec/index.ts"

/** Writes `kit.schema.json` and `variant.schema.json` into `folder`; gives the files written. */
export function writeSchemas(folder: string): readonly string[] {
  return Object.entries({ "kit.schema.json": kitSchema(), "variant.schema.json": variantSchema() }).map(
    ([name, schema]) => {
      const file = join(folder, name)
      writeFileSync(file, `${JSON.stringify(schema, null, 2)}\n`)
      return file
    },
  )
}
