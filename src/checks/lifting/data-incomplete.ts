import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { textIn } from '../entry-data.ts'
import { everyLift, type Lift } from '../lifts.ts'

/** What a lift hangs on, and at which angle, decides whether it holds. */
export const liftDataIncomplete: Check = {
  name: 'lifting/data-incomplete',
  severity: 'error',
  title: 'A lift does not say what carries the load, or how its legs stand.',
  rules: ['LI-01', 'LI-02'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const lift of everyLift(procedure)) {
      const missing = missingIn(lift)
      if (missing === null) continue
      yield {
        at: lift.at,
        message: `The lift of "${lift.name}" in step ${lift.step.number} does not say ${missing.what}.`,
        advice: missing.advice,
      }
    }
  },
}

function missingIn({ data, gear, legs }: Lift): { readonly what: string; readonly advice: string } | null {
  if (gear.length === 0)
    return { what: 'what carries it', advice: 'Name crane, slings, shackles and eyes: with crane-1 two-leg-chain' }
  const has = (key: string) => textIn(data, key) !== null
  const hasTwoLengths = ['leg-length', 'height', 'hook-points'].filter(has).length >= 2
  if (legs < 2 || has('angle') || hasTwoLengths) return null
  return {
    what: `at which angle its ${legs} legs stand, so their pull cannot be worked out`,
    advice: 'Write angle 60° from horizontal, or two of leg-length, height and hook-points.',
  }
}
