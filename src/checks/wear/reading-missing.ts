import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { unknownName } from '../unknown-name.ts'
import { everyWear } from '../wears.ts'

/** Wear is judged by a reading: without it, or before it is taken, there is nothing to judge. */
export const wearReadingMissing: Check = {
  name: 'wear/reading-missing',
  severity: 'error',
  title: 'Wear is judged by a reading that no step takes, or that is taken only later.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyStep(procedure).map(({ step }) => step)
    const names = [...new Set(steps.flatMap(({ readings }) => readings.map(({ name }) => name)))]
    for (const { study, step } of everyWear(procedure)) {
      const taken = steps.findIndex(({ readings }) => readings.some(({ name }) => name === study.name))
      if (taken === -1) {
        yield unknownName(
          study.at,
          `Step ${step.number} judges the wear of "${study.name}", and no step has a reading of that name.`,
          study.name,
          names,
          `Take it in this step: measure: { ${study.name}: … }.`,
        )
        continue
      }
      if (taken <= steps.findIndex(({ id }) => id === step.id)) continue
      yield {
        at: study.at,
        message: `Step ${step.number} judges the wear of "${study.name}", which is read only in step ${steps[taken]?.number}.`,
        advice: 'Write wear in the step that takes the reading, or in a later one.',
      }
    }
  },
}
