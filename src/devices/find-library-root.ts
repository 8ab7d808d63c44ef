import { existsSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'

/** The nearest folder above a file that holds `witnessmark.yaml`, else the file's own folder. Absolute. */
export function findLibraryRoot(file: string): string {
  const ownFolder = dirname(resolve(file))
  for (let folder = ownFolder; ; folder = dirname(folder)) {
    if (existsSync(join(folder, 'witnessmark.yaml'))) return folder
    if (dirname(folder) === folder) return ownFolder
  }
}
