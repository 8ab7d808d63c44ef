import { basename, join, relative, sep } from 'node:path'
import process from 'node:process'
import { type FSWatcher, watch as watchFiles } from 'chokidar'
import { findLibraryRoot } from '../../devices/find-library-root.ts'
import { build } from './build.ts'
import type { BuildOptions } from './build-job.ts'
import { findProcedures } from './find-procedures.ts'
import type { Program } from './program.ts'
import { shownPath } from './shown-path.ts'
import type { Surroundings } from './surroundings.ts'

/** Somebody who saves several files at once is answered once. Milliseconds. */
const pause = 150

/**
 * `witnessmark watch`: builds, then builds again whatever a change touches: the procedure that was saved, or every one where
 * something in `shared/`, the settings or a figure has changed. Ends on Ctrl-C.
 */
export async function watch(
  typed: readonly string[],
  options: BuildOptions,
  program: Program,
  surroundings: Surroundings,
): Promise<number> {
  const { folder, say } = surroundings
  const first = findProcedures(typed, folder)
  if (first.files.length === 0) {
    for (const sentence of first.complaints) say(`${sentence}\n`)
    return 2
  }
  await build(typed, options, program, surroundings)
  const roots = [...new Set(first.files.map(findLibraryRoot))]
  const changed = new Set<string>()
  let timer: NodeJS.Timeout | null = null
  let isBusy = false

  const buildChanged = async (): Promise<void> => {
    timer = null
    if (isBusy) return
    const paths = [...changed]
    changed.clear()
    const files = touched(paths, typed, folder)
    say(`\n${clock(surroundings.now())} ${named(paths, folder)} changed.\n`)
    if (files.length === 0) return say('No procedure is touched by it.\n')
    isBusy = true
    try {
      await build(files, options, program, surroundings)
    } finally {
      isBusy = false
      if (changed.size > 0) soon()
    }
  }
  const soon = (): void => {
    if (timer !== null) clearTimeout(timer)
    timer = setTimeout(() => void buildChanged(), pause)
  }
  const watcher = watchRoots(roots, join(folder, options.out), (path) => {
    changed.add(path)
    soon()
  })
  say('Waiting for changes. Ctrl-C ends it.\n')
  await interrupted()
  if (timer !== null) clearTimeout(timer)
  await watcher.close()
  return 0
}

function watchRoots(roots: readonly string[], outFolder: string, onChange: (path: string) => void): FSWatcher {
  const watcher = watchFiles([...roots], {
    ignoreInitial: true,
    atomic: true,
    ignored: (path) =>
      path === outFolder || path.startsWith(outFolder + sep) || /^(?:\..+|node_modules)$/.test(basename(path)),
  })
  for (const event of ['add', 'change', 'unlink'] as const) watcher.on(event, onChange)
  watcher.on('error', () => {})
  return watcher
}

/** The procedures that have to be built again. */
function touched(paths: readonly string[], typed: readonly string[], folder: string): readonly string[] {
  const { files } = findProcedures(typed, folder)
  const isWide = (path: string): boolean => {
    const [first] = relative(findLibraryRoot(path), path).split(sep)
    return first === 'shared' || first === 'witnessmark.yaml' || !path.endsWith('.md')
  }
  const wide = new Set(paths.filter(isWide).map(findLibraryRoot))
  return files.filter((file) => paths.includes(file) || wide.has(findLibraryRoot(file)))
}

function named(paths: readonly string[], folder: string): string {
  const shown = paths.map((path) => shownPath(path, folder)).sort()
  const [first = '', ...others] = shown
  return others.length === 0 ? first : `${first} and ${others.length} more`
}

/** Hours, minutes and seconds of this place. */
function clock(now: number): string {
  return new Date(now).toTimeString().slice(0, 8)
}

function interrupted(): Promise<void> {
  return new Promise((done) => {
    process.once('SIGINT', () => done())
    process.once('SIGTERM', () => done())
  })
}
