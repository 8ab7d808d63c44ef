import type { JobReading } from '../../outputs/page/job.ts'
import { judge, limitOfPrinted } from '../../quantities/judge-reading.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import { fromExactText } from '../../quantities/rational.ts'
import type { Verdict } from './job-log.ts'

export interface Judgement {
  readonly verdict: Verdict
  /** In the unit of the limit, where it was typed in another. */
  readonly judgedAs: string
  /** Why a text cannot be read, or what was likely meant. */
  readonly remark: string
}

/** Judges what was typed or answered, by the compiler's own code. */
export function judgeTyped(reading: JobReading, typed: string): Judgement {
  if (reading.kind === 'check') return { verdict: checkVerdict(reading, typed), judgedAs: '', remark: '' }
  const limit = reading.limit === null ? null : limitOfPrinted(reading.limit)
  if (limit === null) return noted(typed)
  const { verdict, value, problem, hint } = judge(limit, typed)
  if (verdict === 'unreadable')
    return { verdict, judgedAs: '', remark: problem === null ? '' : `${problem.message} ${problem.advice}` }
  const exact = value === null ? null : fromExactText(value)
  const judgedAs = exact === null || typed.includes(limit.unit) ? '' : `${exactNumberText(exact)} ${limit.unit}`.trim()
  // Without a tolerance nothing can be judged; the page knows no uncertainty that could leave a doubt.
  return { verdict: verdict === 'in-doubt' ? 'noted' : verdict, judgedAs, remark: hint ?? '' }
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
