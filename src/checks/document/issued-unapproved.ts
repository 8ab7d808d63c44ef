import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'

/** "Issued" tells the technician that somebody answers for this sheet; then it should say who. */
export const issuedUnapproved: Check = {
  name: 'document/issued-unapproved',
  severity: 'warning',
  title: 'The document is issued, but an approval has no date.',
  rules: ['PL-16'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { status, approvals } = procedure.document
    if (status !== 'issued') return
    const open = approvals.filter((approval) => approval.date === null)
    if (approvals.length > 0 && open.length === 0) return
    const who = open.map((approval) => approval.role).join(', ')
    yield {
      at: placeInFrontMatter(written, approvals.length > 0 ? 'approvals' : 'status'),
      message:
        who === ''
          ? 'The status is issued, and nobody approves it.'
          : `The status is issued, and nothing says when it was approved by: ${who}.`,
      advice: 'Write who approved it and the day, or set status: for-review.',
    }
  },
}
