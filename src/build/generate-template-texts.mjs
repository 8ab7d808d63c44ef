import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { transform } from 'esbuild'
import { listFiles } from './list-files.mjs'

/**
 * Every file of `templates/` that is no Handlebars template, as text, by its path with ending: `print/checklist.typ`.
 * Style sheets are written as briefly as they can be: they stand in every page.
 */
export async function generate(rootFolder) {
  const folder = path.join(rootFolder, 'templates')
  const names = (await listFiles(folder)).filter((file) => !file.endsWith('.hbs'))
  const lines = []
  for (const file of names) {
    const text = (await readFile(path.join(folder, file), 'utf8')).replaceAll('\r\n', '\n')
    const shown = file.endsWith('.css') ? await shortened(text) : text
    lines.push(`  ${JSON.stringify(file)}: ${JSON.stringify(shown)},`)
  }
  return `export const templateTexts = {\n${lines.join('\n')}\n}\n`
}

async function shortened(css) {
  const { code } = await transform(css, { loader: 'css', minify: true, target: ['chrome90', 'safari15', 'firefox90'] })
  return code.trim()
}
