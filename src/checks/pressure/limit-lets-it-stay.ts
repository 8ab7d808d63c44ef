import type { Fault } from '../../findings/finding.ts'
import { amountIn } from '../../model/loads/load-data.ts'
import { inBase } from '../../model/passes/worked-figures.ts'
import type { PrintedLimit, Rational } from '../../quantities/quantity-types.ts'
import { compare } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { endsOf } from '../instruments.ts'
import { everyLetOut } from '../let-out.ts'

/** "100 to 200 bar" is the gauge of a running machine. What shows that it is gone has a most, and a small one. */
export const limitLetsItStay: Check = {
  name: 'pressure/limit-lets-it-stay',
  severity: 'error',
  title: 'The reading that is to show that a pressure is gone is in limit while it is still there.',
  rules: ['LO-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study, step } of everyLetOut(procedure)) {
      const reading = study.gauge?.reading
      const full = study.typed('pressure')
      // A check by eye has answers, and no limit; a limit of another kind is judged elsewhere.
      if (!reading || full === null || reading.kind === 'check' || reading.workedLimit !== undefined) continue
      const { limit, name } = reading
      if (limit !== null && limit.kind !== 'pressure') continue
      const why = whyFull(limit, amountIn(full, 'pressure'))
      if (why === null) continue
      yield {
        at: study.at,
        message: `"${name}" is to show that the ${full} of "${study.name}" in step ${step.number} are gone, and ${why}.`,
        advice: `Give it the most that may be left: ${name}: max 0.2 MPa; the maker says how much.`,
      }
    }
  },
}

function whyFull(limit: PrintedLimit | null, full: Rational | null): string | null {
  if (limit === null) return 'has no limit'
  const { lower, upper } = endsOf(limit)
  if (lower !== null && lower.numerator > 0n) return `must be ${limit.typed}: some of it must still be there`
  if (upper === null) return `may be ${limit.typed}`
  return full !== null && compare(inBase(upper, limit.unit), full) >= 0
    ? `may be ${limit.typed}: all of it could still be there`
    : null
}
