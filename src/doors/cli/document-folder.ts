import type { DocumentInfo } from '../../model/procedure.ts'

/** What a build may write into the folder of a document. */
export const documentFiles = [
  'checklist.pdf',
  'page.html',
  'audit.html',
  'audit.csv',
  'steps.json',
  'lift-plan.pdf',
  'pick-list.pdf',
  'pick-list.csv',
  'sign-off.pdf',
] as const

/** What a build may write beside those folders. */
export const libraryFiles = ['index.html', 'audit.html', 'audit.csv', 'pick-list.pdf', 'pick-list.csv'] as const

/** Letters, digits, `.`, `_` and `-`, with a letter or digit first and no dot last: a folder name on every disk. */
const plainName = /^[\p{L}\p{N}]([\p{L}\p{N}._-]*[\p{L}\p{N}_-])?$/u
// Windows keeps these names for devices, with any ending.
const deviceName = /^(con|prn|aux|nul|com\d|lpt\d)(\.|$)/i

/**
 * The folder of a document in the output folder, `<number>-<revision>`, or null where it would be no plain name.
 * A check reports such numbers where they stand; this makes sure that none ever leads out of the output folder.
 */
export function documentFolder(document: Pick<DocumentInfo, 'number' | 'revision'>): string | null {
  const folder = `${document.number}-${document.revision}`
  return plainName.test(folder) && !deviceName.test(folder) ? folder : null
}
