import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'

const ending = '.schema.json'

/**
 * Every schema under `schema/`, by its path without ending: `blocks/torque`, `library/hazards`, `front-matter`.
 *
 * @param {string} rootFolder the folder that holds `schema/`
 * @returns {Promise<Record<string, any>>}
 */
export async function readSchemas(rootFolder) {
  const folder = join(rootFolder, 'schema')
  const paths = (await readdir(folder, { recursive: true })).map((path) => path.replaceAll('\\', '/'))
  const schemas = {}
  for (const path of paths.filter((path) => path.endsWith(ending)).sort())
    schemas[path.slice(0, -ending.length)] = JSON.parse(await readFile(join(folder, path), 'utf8'))
  return schemas
}

/** The code of `#generated/schemas`. */
export async function generate(rootFolder) {
  return `export const schemas = ${JSON.stringify(await readSchemas(rootFolder))}\n`
}
