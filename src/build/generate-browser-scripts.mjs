import { readdir } from 'node:fs/promises'
import path from 'node:path'
import { build } from 'esbuild'

/**
 * How a script for a page is bundled. Browsers from 2020 on (BigInt, optional chaining). Pages are UTF-8 and say so, so that units
 * need no escapes; the two long names occur only inside scripts, never in data, and are shortened.
 */
export const pageBundle = {
  bundle: true,
  write: false,
  format: 'iife',
  platform: 'browser',
  target: 'es2020',
  minify: true,
  charset: 'utf8',
  mangleProps: /^(?:numerator|denominator)$/,
  legalComments: 'none',
  logLevel: 'silent',
}

/** Bundles every `src/doors/<door>/<name>.entry.ts` with all that it imports into one script that runs as it stands. */
export async function generate(rootFolder) {
  const doors = path.join(rootFolder, 'src/doors')
  const files = await readdir(doors, { recursive: true })
  const entries = files.filter((file) => file.endsWith('.entry.ts')).sort()
  const lines = []
  for (const entry of entries) {
    const result = await build({
      ...pageBundle,
      absWorkingDir: rootFolder,
      entryPoints: [path.join(doors, entry)],
    })
    const script = result.outputFiles[0]?.text.trim() ?? ''
    // A script element ends at the first of these, whatever the script means by it.
    if (/<\/script|<!--/i.test(script))
      throw new Error(`${entry}: the bundle holds text that would end its script element.`)
    lines.push(`  ${JSON.stringify(path.basename(entry, '.entry.ts'))}: ${JSON.stringify(script)},`)
  }
  return `export const browserScripts = {\n${lines.join('\n')}\n}\n`
}
