import path from 'node:path'
import { build } from 'esbuild'
import { pageBundle } from './generate-browser-scripts.mjs'

/** The script of the desk, by itself: no other output carries the editor along. */
export async function generate(rootFolder) {
  const result = await build({
    ...pageBundle,
    absWorkingDir: rootFolder,
    entryPoints: [path.join(rootFolder, 'src/doors/desk/browser/start.ts')],
  })
  const script = result.outputFiles[0]?.text.trim() ?? ''
  return `export const deskScript = ${JSON.stringify(script)}\n`
}
