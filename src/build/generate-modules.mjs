import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { rootFolder } from './root-folder.mjs'
import { writeIfChanged } from './write-if-changed.mjs'

const generatorName = /^generate-(?<module>.+)\.mjs$/

/**
 * Runs every `src/build/generate-<module>.mjs` and writes `out/program/generated/<module>.js`.
 * One that fails does not keep the others from being written; all failures are thrown together.
 */
export async function generateModules() {
  const buildFolder = join(rootFolder, 'src/build')
  const failures = []
  const written = []
  for (const file of (await readdir(buildFolder)).sort()) {
    const module = generatorName.exec(file)?.groups?.module
    if (module === undefined || module === 'modules') continue
    try {
      const { generate } = await import(pathToFileURL(join(buildFolder, file)).href)
      await writeIfChanged(join(rootFolder, 'out/program/generated', `${module}.js`), await generate(rootFolder))
      written.push(module)
    } catch (error) {
      failures.push(`${file}: ${error instanceof Error ? error.message : error}`)
    }
  }
  if (failures.length > 0) throw new Error(failures.join('\n'))
  return written
}
