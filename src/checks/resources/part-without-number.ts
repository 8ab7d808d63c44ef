import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

/** "New seal" is what the last one was, too. */
export const partWithoutNumber: Check = {
  name: 'resources/part-without-number',
  severity: 'advice',
  title: 'A part that an issued document replaces has no number.',
  rules: ['PR-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    // Until then numbers are still being gathered.
    if (procedure.document.status !== 'issued') return
    for (const { id, number, replace, listed, at } of procedure.resources.parts) {
      if (!listed || number !== null || replace === null) continue
      yield {
        at,
        message: `The part "${id}" is replaced, and nothing says by which: it has no number.`,
        advice: `Write the number of the part: ${id}: { number: …, replace: ${replace} }`,
      }
    }
  },
}
