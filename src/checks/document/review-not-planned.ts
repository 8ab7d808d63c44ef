import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'

/** A document that nobody looks at again is wrong some day, and looks as right as before. */
export const reviewNotPlanned: Check = {
  name: 'document/review-not-planned',
  severity: 'advice',
  title: 'An issued document has no day after its own by which it is looked at again.',
  rules: ['RE-12'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { status, date, reviewBy } = procedure.document
    if (status !== 'issued') return
    // Both are days as year-month-day, which sort as text.
    if (reviewBy !== null && reviewBy > date) return
    yield {
      at: placeInFrontMatter(written, reviewBy === null ? 'date' : 'review-by'),
      message:
        reviewBy === null
          ? 'The document is issued, and nothing says when it is looked at again.'
          : `The review (${reviewBy}) is not after the date of the document (${date}).`,
      advice: 'Write review-by with a day, usually a year on.',
    }
  },
}
