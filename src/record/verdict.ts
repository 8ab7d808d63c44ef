import { namesIn } from '../quantities/expression.ts'
import { judge, judgeValue, uncertaintyAt } from '../quantities/judge-reading.ts'
import { exactNumberText } from '../quantities/number-text.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import type { Limit, Parsed } from '../quantities/quantity-types.ts'
import { fromExactText } from '../quantities/rational.ts'
import type { Verdict } from './entry.ts'
import type { JobReading } from './job.ts'
import { uncertaintyOf } from './known-values.ts'

export interface Judgement {
  readonly verdict: Verdict
  /** In the unit of the limit, where it was typed in another. */
  readonly judgedAs: string
  /** Why a text cannot be read, or what was likely meant. */
  readonly remark: string
}

/**
 * Judges what was typed or answered, by the compiler's own code. `limit` is the limit as it stands now; a problem where it
 * rests on readings that are missing, null where the reading has none.
 */
export function judgeTyped(reading: JobReading, typed: string, limit: Parsed<Limit> | null): Judgement {
  if (reading.kind === 'check') return { verdict: checkVerdict(reading, typed), judgedAs: '', remark: '' }
  if (limit === null) return noted(typed)
  if (!limit.ok) {
    const figure = noted(typed)
    if (figure.verdict === 'unreadable') return figure
    if (restsOnOwnPast(reading)) return figure
    const remark = `The limit is not known yet. ${limit.problem.message} ${limit.problem.advice}`
    return { verdict: 'waiting', judgedAs: '', remark }
  }
  return judgedBy(limit.value, reading, typed)
}

/** `max previous(l1) + 0.1 mm` on `l1` itself: the first of all has nothing to be judged by. */
function restsOnOwnPast({ name, workedLimit }: JobReading): boolean {
  return [workedLimit?.lower, workedLimit?.upper].some((end) => {
    const expression = parseExpression(end?.expression ?? '')
    return expression.ok && namesIn(expression.value).some((node) => node.which === 'previous' && node.name === name)
  })
}

function judgedBy(limit: Limit, reading: JobReading, typed: string): Judgement {
  const { verdict, value, problem, hint } = judge(limit, typed)
  if (verdict === 'unreadable')
    return { verdict, judgedAs: '', remark: problem === null ? '' : `${problem.message} ${problem.advice}` }
  const exact = value === null ? null : fromExactText(value)
  const judgedAs = exact === null || typed.includes(limit.unit) ? '' : `${exactNumberText(exact)} ${limit.unit}`.trim()
  // Without a tolerance nothing can be judged.
  if (verdict === 'in-doubt') return { verdict: 'noted', judgedAs, remark: hint ?? '' }
  const uncertainty = uncertaintyOf(reading)
  if (exact === null || uncertainty === null) return { verdict, judgedAs, remark: hint ?? '' }
  const guarded = judgeValue(limit, exact, uncertaintyAt(uncertainty, exact, limit.unit))
  const remark =
    guarded.verdict === 'in-doubt'
      ? `Nearer to the limit than the uncertainty of ${reading.uncertainty?.typed ?? ''}: it does not show that this is in limit.`
      : (hint ?? '')
  return { verdict: guarded.verdict, judgedAs, remark }
}

/** A limit that readings settled, in words: `max 12.6 mm`. */
export function limitInWords({ lower, upper, unit }: Limit): string {
  const end = (bound: NonNullable<Limit['lower']>) => exactNumberText(bound.value)
  if (lower && upper) return `${end(lower)} to ${end(upper)} ${unit}`.trim()
  if (upper) return `${upper.inclusive ? 'max' : 'under'} ${end(upper)} ${unit}`.trim()
  return lower ? `${lower.inclusive ? 'min' : 'over'} ${end(lower)} ${unit}`.trim() : ''
}

/** Written down for later: it must be a figure, but nothing says which. */
function noted(typed: string): Judgement {
  const parsed = parseQuantity(typed)
  if (parsed.ok) return { verdict: 'noted', judgedAs: '', remark: '' }
  return { verdict: 'unreadable', judgedAs: '', remark: `${parsed.problem.message} ${parsed.problem.advice}` }
}

function checkVerdict(reading: JobReading, answer: string): Verdict {
  if (reading.passes.includes(answer)) return 'in'
  return reading.fails.includes(answer) ? 'out' : 'noted'
}
