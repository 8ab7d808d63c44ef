import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { dangerousWorks } from '../dangerous-works.ts'
import { everyWrittenStep } from '../every-step.ts'
import { classNamed, isThoughtOf } from '../hazard-classes.ts'

/** What a step does tells what can hurt there; a list of hazards without it was copied from another job. */
export const classMissing: Check = {
  name: 'hazards/class-missing',
  severity: 'advice',
  title: 'A step does something dangerous, and no hazard of the document is of that kind.',
  rules: ['SM-13', 'SM-14', 'LI-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyWrittenStep(procedure)
    for (const work of dangerousWorks) {
      const step = steps.find((one) => work.isDone(one.step))?.step
      if (step === undefined) continue
      const missing = work
        .brings(step)
        .map(classNamed)
        .filter((one) => !isThoughtOf(one, procedure))
      if (missing.length === 0) continue
      yield {
        at: step.at,
        message: `Step ${step.number} ${work.says}, and no hazard of this document is about ${missing.map(({ name }) => name).join(', nor about ')}.`,
        advice: `Name it at the step: hazards: [${missing.map(({ id }) => id).join(', ')}], if your library has it, or describe it there in your own words.`,
      }
    }
  },
}
