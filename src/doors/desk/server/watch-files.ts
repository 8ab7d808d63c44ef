import { join, relative, sep } from 'node:path'
import { watch } from 'chokidar'
import type { News } from '../wire.ts'

/** Tells of every change of a procedure, of `shared/` and of the settings, whoever made it. Gives the way to stop. */
export function watchFiles(root: string, folder: string, tell: (news: News) => void): () => Promise<void> {
  const watcher = watch([join(root, folder), join(root, 'shared'), join(root, 'witnessmark.yaml')], {
    ignoreInitial: true,
    followSymlinks: false,
    ignored: (path) => /(?:^|[\\/])(?:node_modules|out|\.[^\\/]+)(?:[\\/]|$)/.test(relative(root, path)),
  })
  watcher.on('all', (_event, path) => {
    const file = relative(root, path).split(sep).join('/')
    const isShared = file.startsWith('shared/') || file === 'witnessmark.yaml' || /(?:^|\/)figures\//.test(file)
    tell(isShared ? { kind: 'library' } : { kind: 'file', file })
  })
  // A folder that cannot be watched is still looked at before each save.
  watcher.on('error', () => undefined)
  return () => watcher.close()
}
