import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { isEveryoneOut } from '../entered-zones.ts'
import { everyWrittenStep } from '../every-step.ts'
import { wordsOfStep, wordsOfStepAndBelow } from '../job-words.ts'

const tries =
  /\b(?:try|tries|attempt) (?:\w+ )?(?:to )?start\b|\b(?:press|push|turn)(?:es)? (?:the )?(?:key to )?start\b|\btry the start\b/i
const peopleClear =
  /\b(?:nobody|no one|everyone|everybody|people (?:are )?clear|clear of people|stand clear|all clear)\b/i
const backToOff = /\b(?:off|neutral|out|released?)\b/i
/** A button comes back by itself. */
const button = /\b(?:press|push|button)/i

/** The start is tried with nobody near, and its switch does not stay on. */
export const tryOutIncomplete: Check = {
  name: 'lockout/try-out-incomplete',
  severity: 'warning',
  title: 'A start is tried with people perhaps near, or its switch is left on.',
  rules: ['LO-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyWrittenStep(procedure)
    for (const [index, { step, phase }] of steps.entries()) {
      if (!tries.test(step.text.plain) || !step.readings.some(({ kind }) => kind === 'check')) continue
      const before = steps[index - 1]?.step
      const after = steps[index + 1]?.step
      const words = wordsOfStepAndBelow(step)
      const isClear =
        step.clear.length > 0 ||
        phase.clear.length > 0 ||
        steps.slice(0, index).some((one) => one.phase.id === phase.id && one.step.clear.length > 0) ||
        isEveryoneOut(procedure, step) === true ||
        peopleClear.test(`${before ? wordsOfStep(before) : ''}\n${words}`)
      const isOff = button.test(step.text.plain) || backToOff.test(`${words}\n${after?.text.plain ?? ''}`)
      const missing = [
        ...(isClear ? [] : ['that nobody is near before it']),
        ...(isOff ? [] : ['that the switch goes back to off after it']),
      ]
      if (missing.length === 0) continue
      yield {
        at: step.at,
        message: `Step ${step.number} tries the start and does not say ${missing.join(', nor ')}.`,
        advice: 'Say it in the step: Look that nobody is near, try the start, put the switch back to off.',
      }
    }
  },
}
