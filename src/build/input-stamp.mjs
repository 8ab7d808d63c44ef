import { createHash } from 'node:crypto'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { rootFolder } from './root-folder.mjs'

/** What decides how everything is made: the packages and their versions. */
const always = ['package.json', 'package-lock.json']

/** One hash over names and contents of folders (with all below them), over the packages, and over the Node that runs. */
export function inputStamp(folders) {
  const hash = createHash('sha256').update(process.version)
  const paths = [...always, ...folders.flatMap(filesBelow)]
  for (const path of paths) {
    const content = readFileSync(join(rootFolder, path))
    hash.update(`\0${path}\0${content.length}\0`).update(content)
  }
  return hash.digest('hex')
}

/** The stamp that was written beside what was made, or null. */
export function stampIn(file) {
  return existsSync(file) ? readFileSync(file, 'utf8') : null
}

function filesBelow(folder) {
  return readdirSync(join(rootFolder, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(rootFolder.length + 1))
    .sort()
}
