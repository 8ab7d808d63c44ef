import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

/** Who fetches the sheet must see in one sentence whether it is the one he needs. */
export const purposeMissing: Check = {
  name: 'document/purpose-missing',
  severity: 'advice',
  title: 'An issued document does not say what it is for.',
  rules: ['PR-01'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    if (procedure.document.status !== 'issued' || procedure.purpose.length > 0) return
    yield {
      at: written.title?.at ?? procedure.document.at,
      message:
        'The document is issued, and no sentence before the first phase says what it is for and what it leaves out.',
      advice: 'Write one or two sentences above the first ## heading: the job, when it is done, how long it takes.',
    }
  },
}
