import { existsSync } from 'node:fs'
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { inputStamp, stampIn } from './input-stamp.mjs'
import { rootFolder } from './root-folder.mjs'
import { writeIfChanged } from './write-if-changed.mjs'

const generatorName = /^generate-(?<module>.+)\.mjs$/
/** Modules made from these folders alone (and by `src/build`): made again only when something in them changed. */
const madeFrom = {
  'schema-validators': ['schema'],
  schemas: ['schema'],
  templates: ['templates'],
  'template-texts': ['templates'],
  words: ['shared/words'],
}

/**
 * Runs every `src/build/generate-<module>.mjs` and writes `out/program/generated/<module>.js`.
 * One that fails does not keep the others from being written; all failures are thrown together.
 */
export async function generateModules() {
  const buildFolder = join(rootFolder, 'src/build')
  const failures = []
  for (const file of (await readdir(buildFolder)).sort()) {
    const module = generatorName.exec(file)?.groups?.module
    if (module === undefined || module === 'modules') continue
    try {
      await generateModule(module, join(buildFolder, file))
    } catch (error) {
      failures.push(`${file}: ${error instanceof Error ? error.message : error}`)
    }
  }
  if (failures.length > 0) throw new Error(failures.join('\n'))
}

async function generateModule(module, generator) {
  const target = join(rootFolder, 'out/program/generated', `${module}.js`)
  const stampFile = `${target}.made-from.txt`
  const inputs = madeFrom[module]
  const stamp = inputs ? inputStamp(['src/build', ...inputs]) : null
  if (stamp !== null && existsSync(target) && stampIn(stampFile) === stamp) return
  const { generate } = await import(pathToFileURL(generator).href)
  await writeIfChanged(target, await generate(rootFolder))
  if (stamp !== null) await writeIfChanged(stampFile, stamp)
}
