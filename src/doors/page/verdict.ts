import type { JobLimit, JobReading } from '../../outputs/page/job.ts'
import { convertValue } from '../../quantities/convert.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import { compare, fromExactText } from '../../quantities/rational.ts'
import type { Verdict } from './job-log.ts'

export interface Judgement {
  readonly verdict: Verdict
  /** In the unit of the limit, where it was typed in another. */
  readonly judgedAs: string
  /** For a text that cannot be read. */
  readonly problem: string
}

/** Judges what was typed or answered, exactly as the compiler would. */
export function judgeTyped(reading: JobReading, typed: string): Judgement {
  const plain = { judgedAs: '', problem: '' }
  if (reading.kind === 'check') return { ...plain, verdict: checkVerdict(reading, typed) }
  const { limit } = reading
  const parsed = parseQuantity(typed, limit?.kind)
  if (!parsed.ok)
    return { ...plain, verdict: 'unreadable', problem: `${parsed.problem.message} ${parsed.problem.advice}` }
  if (limit === null) return { ...plain, verdict: 'noted' }
  const converted = convertValue(parsed.value.value, parsed.value.unit, limit.unit)
  if (!converted.ok) return { ...plain, verdict: 'unreadable', problem: converted.problem.message }
  const judgedAs = parsed.value.unit === limit.unit ? '' : `${exactNumberText(converted.value)} ${limit.unit}`
  return { verdict: side(limit, converted.value), judgedAs, problem: '' }
}

function checkVerdict(reading: JobReading, answer: string): Verdict {
  if (reading.passes.includes(answer)) return 'in'
  return reading.fails.includes(answer) ? 'out' : 'noted'
}

function side(limit: JobLimit, value: NonNullable<ReturnType<typeof fromExactText>>): Verdict {
  const lower = limit.lower && fromExactText(limit.lower.exact)
  const upper = limit.upper && fromExactText(limit.upper.exact)
  if (!lower && !upper) return 'noted'
  if (lower && limit.lower && beyond(compare(lower, value), limit.lower.inclusive)) return 'low'
  if (upper && limit.upper && beyond(compare(value, upper), limit.upper.inclusive)) return 'high'
  return 'in'
}

function beyond(order: number, inclusive: boolean): boolean {
  return inclusive ? order > 0 : order >= 0
}
