import { existsSync } from 'node:fs'
import { readdir, rm } from 'node:fs/promises'
import { basename, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { inputStamp, stampIn } from './input-stamp.mjs'
import { rootFolder } from './root-folder.mjs'
import { writeIfChanged } from './write-if-changed.mjs'

const programFolder = join(rootFolder, 'out/program')
const stampFile = join(programFolder, 'made-from.txt')
const inputFolders = ['src', 'schema', 'templates', 'shared/words']
/** What is made: the command, what `import … from 'witnessmark'` gives, and the desk and the answers to editors, which the command reads in when asked for. */
const entryPoints = {
  cli: 'src/doors/cli/main.ts',
  api: 'src/compile.ts',
  desk: 'src/doors/desk/main.ts',
  lsp: 'src/doors/lsp/main.ts',
}
/** Left in node_modules: a native library, and fonts that are read from disk. */
const external = ['@myriaddreamin/typst-ts-node-compiler', 'source-sans', 'dejavu-fonts-ttf']

/** Makes `out/program/` from the sources; does nothing where it is already made from these very files. */
export async function compileProgram() {
  const stamp = inputStamp(inputFolders)
  if (isComplete() && stampIn(stampFile) === stamp) return { made: false }
  await rm(stampFile, { force: true })
  const { generateModules } = await import('./generate-modules.mjs')
  await generateModules()
  await bundle()
  await writeIfChanged(stampFile, stamp)
  return { made: true }
}

function isComplete() {
  return Object.keys(entryPoints).every((name) => existsSync(join(programFolder, `${name}.js`)))
}

async function bundle() {
  const { build } = await import('esbuild')
  const result = await build({
    entryPoints: Object.fromEntries(Object.entries(entryPoints).map(([name, path]) => [name, join(rootFolder, path)])),
    outdir: programFolder,
    absWorkingDir: rootFolder,
    bundle: true,
    // What several of them need stands in a file of its own, once.
    splitting: true,
    chunkNames: 'part-[hash]',
    metafile: true,
    write: false,
    format: 'esm',
    platform: 'node',
    target: 'node20',
    external,
    logLevel: 'silent',
    // Some packages are CommonJS and ask for Node's own modules with `require`.
    banner: {
      js: "import { createRequire as createRequireHere } from 'node:module'; const require = createRequireHere(import.meta.url);",
    },
  })
  for (const file of result.outputFiles) await writeIfChanged(file.path, file.contents)
  const made = new Set(result.outputFiles.map((file) => basename(file.path)))
  for (const name of await readdir(programFolder))
    if (name.startsWith('part-') && !made.has(name)) await rm(join(programFolder, name))
  await writeIfChanged(
    join(programFolder, 'packages-inside.json'),
    JSON.stringify(packagesIn(result.metafile), null, 2),
  )
}

/** Names of the packages whose code the program holds, for their notices. */
export function packagesIn(metafile) {
  const names = Object.keys(metafile.inputs).flatMap(
    (path) => /.*node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1] ?? [],
  )
  return [...new Set(names)].sort()
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  try {
    const started = performance.now()
    const { made } = await compileProgram()
    const seconds = ((performance.now() - started) / 1000).toFixed(1)
    console.error(made ? `Program compiled in ${seconds} s.` : 'Program is up to date.')
  } catch (error) {
    console.error(`The program could not be compiled.\n${error instanceof Error ? error.message : error}`)
    process.exitCode = 1
  }
}
