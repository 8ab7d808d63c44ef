import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { isEnglish } from '../told-instructions.ts'

const emptyWords =
  /^(?:(?:it|all|everything|they|this|result)\s+)?(?:(?:is|are|was|were)\s+)?(?:all\s+)?(?:ok|okay|o\.k\.|sat|unsat|satisfactory|good|fine|checked|done|pass|passed|in order|normal|correct|acceptable|proper|yes|right|as required|as it should be|complete|completed)[.!?]?$/i

/** "OK" is what one ticks, not what one sees. */
export const expectationUnsaid: Check = {
  name: 'wording/expectation-unsaid',
  severity: 'warning',
  title: 'A check is passed by "OK", and nobody says what that looks like.',
  rules: ['NU-06', 'NU-15', 'PK-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    if (!isEnglish(procedure)) return
    for (const { step } of everyWrittenStep(procedure))
      for (const { kind, name, asks, passes, fails, at } of step.readings) {
        if (kind !== 'check') continue
        const said = asks ?? (fails.length === 0 ? passes.join(', ') : '')
        if (fails.length > 0 || !emptyWords.test(said.trim())) continue
        yield {
          at,
          message: `The check "${name}" of step ${step.number} asks only for "${said}".`,
          advice:
            'Write what one sees, hears or feels when it is so: "The lamp is green and no drop falls for a minute."',
        }
      }
  },
}
