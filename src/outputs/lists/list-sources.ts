import { templateTexts } from '#generated/template-texts'
import type { ListSources, Tidy } from './list-sheet.ts'

/** A sheet and the templates that lay it out. `main` is a file of `templates/print-lists/`. */
export function listSources(main: string, sheet: unknown, tidy: Tidy): ListSources {
  const templates = Object.entries(templateTexts)
    .filter(([path]) => path.startsWith('print-lists/') && path.endsWith('.typ'))
    .map(([path, text]) => ({ path: path.slice('print-lists/'.length), text }))
  return {
    main,
    standard: 'a-3a',
    files: [...templates, { path: 'sheet.json', text: JSON.stringify(tidy(sheet)) }],
  }
}
