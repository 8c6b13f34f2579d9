/** Builds one generation after the other until it is killed: `node endless-build.mjs KIT-FOLDER OUT`. */
import { buildWith } from "../../.build/build/run-build.js"
import { makeStubStages } from "./stub-stages.mjs"

const [folder, out] = process.argv.slice(2)
for (let generation = 1; ; generation += 1) {
  await buildWith(
    makeStubStages(() => generation),
    [folder],
    out,
    () => undefined,
  )
  if (generation === 1) process.stdout.write("first done\n")
}
