import { readFile } from 'node:fs/promises'
import path from 'node:path'
import { listFiles } from './list-files.mjs'

/** Every file of `templates/` that is no Handlebars template, as text, by its path with ending: `print/checklist.typ`. */
export async function generate(rootFolder) {
  const folder = path.join(rootFolder, 'templates')
  const names = (await listFiles(folder)).filter((file) => !file.endsWith('.hbs'))
  const lines = []
  for (const file of names) {
    const text = (await readFile(path.join(folder, file), 'utf8')).replaceAll('\r\n', '\n')
    lines.push(`  ${JSON.stringify(file)}: ${JSON.stringify(text)},`)
  }
  return `export const templateTexts = {\n${lines.join('\n')}\n}\n`
}
