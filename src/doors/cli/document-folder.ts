import type { DocumentInfo } from '../../model/procedure.ts'

/** What a build may write into the folder of a document. */
export const documentFiles = ['checklist.pdf', 'page.html', 'steps.json'] as const

/** Letters, digits, `.`, `_` and `-`, and no dot at the start or end: a folder name on every disk. */
const plainName = /^[A-Za-z0-9]([A-Za-z0-9._-]{0,98}[A-Za-z0-9])?$/
// Windows keeps these names for devices, with any ending.
const deviceName = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i

/** The folder of a document in the output folder, `<number>-<revision>`, or null where it would not be a plain name. */
export function documentFolder(document: Pick<DocumentInfo, 'number' | 'revision'>): string | null {
  const folder = `${document.number}-${document.revision}`
  return plainName.test(folder) && !deviceName.test(folder) ? folder : null
}
