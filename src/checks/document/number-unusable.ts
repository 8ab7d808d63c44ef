import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'

/** Names that some file systems keep for devices, whatever their ending. */
const keptNames = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i

/** Number and revision name the folder of everything that is written; what is no file name would end up elsewhere. */
export const numberUnusable: Check = {
  name: 'document/number-unusable',
  severity: 'error',
  title: 'The number or the revision of the document cannot name a folder.',
  rules: ['PL-01'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { number, revision } = procedure.document
    const parts = [
      { key: 'number', says: number, isKept: keptNames.test(number) },
      { key: 'revision', says: revision, isKept: false },
    ]
    for (const { key, says, isKept } of parts) {
      if (says === '' || says.includes('??')) continue
      if (!isKept && /^[\p{L}\p{N}][\p{L}\p{N}._-]*$/u.test(says) && !says.endsWith('.')) continue
      yield {
        at: placeInFrontMatter(written, key),
        message: `The ${key} "${says}" cannot name a folder.`,
        advice:
          'Use letters, digits, hyphens, dots and underscores only, beginning with a letter or digit: KRQ-BC-014.',
      }
    }
  },
}
