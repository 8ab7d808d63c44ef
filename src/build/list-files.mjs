import { readdir } from 'node:fs/promises'
import path from 'node:path'

/** Paths of all files under a folder, relative to it, with forward slashes, sorted so that every machine gives the same module. */
export async function listFiles(folder) {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true })
  return entries
    .filter((entry) => entry.isFile() && !entry.name.startsWith('.'))
    .map((entry) => path.relative(folder, path.join(entry.parentPath, entry.name)).split(path.sep).join('/'))
    .sort()
}
