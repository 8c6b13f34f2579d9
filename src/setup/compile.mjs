/** The program as JavaScript: TypeScript of `src/` compiled into `.build/`, which git ignores. */
import { spawnSync } from "node:child_process"
import { chmodSync, cpSync, existsSync, renameSync, rmSync, writeFileSync } from "node:fs"
import { join } from "node:path"
import { hashFiles, isStamped, listFiles, root } from "./places.mjs"

const settings = ["package-lock.json", "tsconfig.json"]
/** Fragments of pages and styles, which go with the code that fills them. */
const assets = ["partials", "styles"]

/** The two builds: the program for its users, and the program with its tests for `npm run bench` and the like. */
const builds = {
  program: { folder: ".build", project: "src/tsconfig.json", sources: ["src"], main: "cli/main.js", assets: "" },
  tests: {
    folder: ".build-tests",
    project: "tests/tsconfig.json",
    sources: ["src", "tests"],
    main: undefined,
    assets: "src",
  },
}

const stampOf = ({ folder }) => join(folder, ".stamp")
const stampNow = ({ project, sources }) =>
  hashFiles([
    ...settings,
    project,
    ...assets.flatMap((folder) => listFiles(folder, "")),
    ...sources.flatMap((folder) => listFiles(folder, ".ts")),
  ])

/** True when the compiled files belong to the sources as they are now. */
export const isCompiled = (name = "program") => isStamped(stampOf(builds[name]), stampNow(builds[name]))

/** Compiles into a folder beside and swaps it in, so that a run at the same time meets no half-written program. */
export function compile(name = "program") {
  const build = builds[name]
  const stampText = stampNow(build)
  const fresh = `${build.folder}-new-${process.pid}`
  const old = `${build.folder}-old-${process.pid}`
  const compiler = join(root, "node_modules", "typescript", "bin", "tsc")
  if (!existsSync(compiler))
    throw new Error("the compiler is not installed; run `npm ci --ignore-scripts --include=dev`")
  const run = spawnSync(process.execPath, [compiler, "-p", build.project, "--outDir", fresh], {
    cwd: root,
    stdio: ["ignore", 2, 2],
  })
  if (run.status !== 0) {
    rmSync(join(root, fresh), { recursive: true, force: true })
    throw new Error("the sources do not compile; the places stand above")
  }
  for (const folder of assets) cpSync(join(root, folder), join(root, fresh, build.assets, folder), { recursive: true })
  if (build.main !== undefined) chmodSync(join(root, fresh, build.main), 0o755)
  writeFileSync(join(root, fresh, ".stamp"), stampText)
  if (existsSync(join(root, build.folder))) renameSync(join(root, build.folder), join(root, old))
  renameSync(join(root, fresh), join(root, build.folder))
  rmSync(join(root, old), { recursive: true, force: true })
}
