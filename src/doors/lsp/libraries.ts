import { realpathSync } from 'node:fs'
import { basename, join, relative, sep } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { type FSWatcher, watch } from 'chokidar'
import { type OpenLibrary, openLibrary } from '../../compile.ts'
import { findLibraryRoot } from '../../devices/find-library-root.ts'
import { libraryOnDisk } from '../../devices/library-on-disk.ts'
import { withTexts } from '../../library/with-texts.ts'

/** A file as the editor names it, and where it stands. */
export interface Whereabouts {
  readonly root: string
  /** Path in the library, with forward slashes. */
  readonly file: string
}

/** The libraries whose files are open. */
export interface Libraries {
  /** Null for what is no file of the disk. */
  readonly locate: (uri: string) => Whereabouts | null
  readonly uriOf: (root: string, file: string) => string
  readonly open: (root: string) => OpenLibrary
  /** What an editor has not saved yet stands in the place of what is on the disk; null: the disk counts again. */
  readonly setText: (where: Whereabouts, text: string | null) => void
  /** Reads `shared/` and the settings of a library again when they are asked for next. */
  readonly forget: (root: string) => void
  readonly close: () => Promise<void>
}

/** @param onChange told when something that several procedures rest on has changed on the disk */
export function openLibraries(onChange: (root: string) => void): Libraries {
  const shelves = new Map<
    string,
    { library: OpenLibrary | null; readonly texts: Map<string, string>; readonly watcher: FSWatcher }
  >()
  const shelfOf = (root: string) => {
    const known = shelves.get(root)
    if (known !== undefined) return known
    const shelf = {
      library: null,
      texts: new Map<string, string>(),
      watcher: watchShared(root, () => forget(root, true)),
    }
    shelves.set(root, shelf)
    return shelf
  }
  const forget = (root: string, tell = false): void => {
    const shelf = shelves.get(root)
    if (shelf !== undefined) shelf.library = null
    if (tell) onChange(root)
  }
  return {
    locate,
    uriOf: (root, file) => pathToFileURL(join(root, file)).href,
    open: (root) => {
      const shelf = shelfOf(root)
      shelf.library ??= openLibrary(withTexts(libraryOnDisk(root), shelf.texts))
      return shelf.library
    },
    setText: ({ root, file }, text) => {
      const { texts } = shelfOf(root)
      if (text === null) texts.delete(file)
      else texts.set(file, text)
      if (isShared(file)) forget(root)
    },
    forget,
    close: async () => {
      await Promise.all([...shelves.values()].map(({ watcher }) => watcher.close()))
      shelves.clear()
    },
  }
}

/** What several procedures rest on. */
export const isShared = (file: string): boolean => file.startsWith('shared/') || file === 'witnessmark.yaml'

/** A Markdown file that is looked at as a procedure. */
export const isProcedure = (file: string): boolean =>
  file.endsWith('.md') && !isShared(file) && basename(file).toLowerCase() !== 'readme.md'

function locate(uri: string): Whereabouts | null {
  let path: string
  try {
    path = fileURLToPath(uri)
  } catch {
    return null
  }
  const root = real(findLibraryRoot(path))
  const file = relative(root, real(path)).split(sep).join('/')
  return file === '' || file.startsWith('../') ? null : { root, file }
}

/** A file that is not saved yet has no real path, but its folder may. */
function real(path: string): string {
  try {
    return realpathSync(path)
  } catch {
    const folder = join(path, '..')
    return folder === path ? path : join(real(folder), basename(path))
  }
}

function watchShared(root: string, onChange: () => void): FSWatcher {
  let timer: NodeJS.Timeout | null = null
  const soon = () => {
    if (timer !== null) clearTimeout(timer)
    timer = setTimeout(onChange, 50)
  }
  const watcher = watch([join(root, 'shared'), join(root, 'witnessmark.yaml')], {
    ignoreInitial: true,
    ignored: (path) => basename(path).startsWith('.'),
  })
  watcher.on('all', soon)
  // A folder that may not be watched is read when its library is opened, and not again.
  watcher.on('error', () => {})
  return watcher
}
