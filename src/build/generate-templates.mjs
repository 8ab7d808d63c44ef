import { readFile } from 'node:fs/promises'
import path from 'node:path'
import Handlebars from 'handlebars'
import { listFiles } from './list-files.mjs'

/**
 * Precompiles every `templates/**.hbs`, named by its path without ending, so that nothing is evaluated when a page is filled.
 * Templates are layout: only the helpers that Handlebars brings are known, and a value that is missing is an error.
 */
export async function generate(rootFolder) {
  const folder = path.join(rootFolder, 'templates')
  const names = (await listFiles(folder)).filter((file) => file.endsWith('.hbs'))
  const lines = []
  for (const file of names) {
    const source = withoutLineEnds(await readFile(path.join(folder, file), 'utf8'))
    const refused = /\{\{\{|\{\{~?&/.exec(source)
    if (refused && !trustedFiles.has(file))
      throw new Error(`templates/${file}: "${refused[0]}" prints without escaping; only the document frames may.`)
    const spec = Handlebars.precompile(source, { strict: true, knownHelpersOnly: true, srcName: undefined })
    lines.push(`  ${JSON.stringify(file.replace(/\.hbs$/, ''))}: ${spec},`)
  }
  return `export const templates = {\n${lines.join('\n')}\n}\n`
}

/** Line ends between tags are for who reads the template; on the page they would be a third of its lines. */
function withoutLineEnds(source) {
  return source.replace(/(?<=[>}])\s*\n\s*(?=[<{])(?!<(?:article|section|main|body)\b)/g, '').replace(/\s+$/, '\n')
}

/** Frames put in the style, script and drawings that this program wrote itself: the only text that may go out unescaped. */
const trustedFiles = new Set(['frame/document.hbs', 'frame/drawing.hbs'])
