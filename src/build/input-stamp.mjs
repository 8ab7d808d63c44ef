import { createHash } from 'node:crypto'
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { rootFolder } from './root-folder.mjs'

const inputFolders = ['src', 'schema', 'templates']
const inputFiles = ['package.json', 'package-lock.json']

/** One hash over everything the program is made from: names and contents of its files, and the Node that makes it. */
export function inputStamp() {
  const hash = createHash('sha256').update(process.version)
  for (const folder of inputFolders) {
    for (const path of filesBelow(folder)) add(hash, path)
  }
  for (const path of inputFiles) add(hash, path)
  return hash.digest('hex')
}

function filesBelow(folder) {
  return readdirSync(join(rootFolder, folder), { withFileTypes: true, recursive: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name))
    .sort()
}

function add(hash, path) {
  const absolute = path.startsWith(rootFolder) ? path : join(rootFolder, path)
  const content = readFileSync(absolute)
  hash.update(`\0${absolute.slice(rootFolder.length)}\0${content.length}\0`).update(content)
}
