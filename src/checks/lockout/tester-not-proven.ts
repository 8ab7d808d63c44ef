import type { Fault } from '../../findings/finding.ts'
import type { Reading } from '../../model/readings.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { compareExact } from '../exact-number.ts'
import { wordsOfStepAndBelow } from '../job-words.ts'

const testsDead =
  /\b(?:prove|test|check)\w*\b[^.]{0,60}\b(?:is |are )?(?:dead|no voltage|absence of voltage|voltage[- ]free)\b|\bvoltage tester\b/i
const proven =
  /\b(?:prov\w+ (?:unit|the (?:tester|meter|detector))|known (?:live )?(?:source|supply)|live (?:source|supply|socket)|tester (?:works|lights|shows))\b/gi

/** A broken tester shows a dead line, too. */
export const testerNotProven: Check = {
  name: 'lockout/tester-not-proven',
  severity: 'warning',
  title: 'A line is tested dead, and the tester is not tried on a live source before and after.',
  rules: ['LO-13'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyWrittenStep(procedure).map(({ step }) => step)
    for (const [index, step] of steps.entries()) {
      if (!testsDead.test(step.text.plain) && !step.readings.some(isDeadVoltage)) continue
      const around = steps
        .slice(Math.max(0, index - 2), index + 3)
        .map(wordsOfStepAndBelow)
        .join('\n')
      if (/\bbefore and after\b/i.test(around) || (around.match(proven) ?? []).length >= 2) continue
      yield {
        at: step.at,
        message: `Step ${step.number} tests for voltage, and the tester is not tried on a known live source before and after.`,
        advice: 'Add it to the step: Try the tester on a known live source, test all conductors, try the tester again.',
      }
    }
  },
}

/** A reading of some volts at most: the line is to be dead. */
function isDeadVoltage({ limit }: Reading): boolean {
  if (limit === null || limit.upper === null || limit.lower !== null) return false
  return limit.unit === 'V' && compareExact(limit.upper.exact, '50') <= 0
}
