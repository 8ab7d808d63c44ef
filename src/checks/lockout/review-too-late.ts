import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'

/** How people lock is looked at once a year, on the spot, by somebody who does not do it with them. */
export const reviewTooLate: Check = {
  name: 'lockout/review-too-late',
  severity: 'warning',
  title: 'A procedure with locks is not reviewed within a year.',
  rules: ['LO-16'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { status, date, reviewBy } = procedure.document
    if (status !== 'issued' || !everyStep(procedure).some(({ step }) => step.locks.length > 0)) return
    const latest = yearAfter(date)
    // Days are written year-month-day, so that their order is that of their letters.
    if (latest === null || (reviewBy !== null && reviewBy <= latest)) return
    yield {
      at: placeInFrontMatter(written, reviewBy === null ? 'date' : 'review-by'),
      message:
        reviewBy === null
          ? `This procedure locks energies and does not say by when it is reviewed.`
          : `This procedure locks energies. Of ${date}, it is reviewed by ${reviewBy}, more than a year later.`,
      advice: `Write review-by: ${latest}, or an earlier day.`,
    }
  },
}

/** The same day a year later; 29 February gives 28 February. */
function yearAfter(date: string): string | null {
  const parts = /^(\d{4})-(\d\d-\d\d)$/.exec(date)
  if (parts === null) return null
  const day = parts[2] === '02-29' ? '02-28' : parts[2]
  return `${String(Number(parts[1]) + 1).padStart(4, '0')}-${day}`
}
