import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { ruledSteps } from '../ruled-steps.ts'
import { unknownName } from '../unknown-name.ts'

/** A rule that is held against no reading holds nobody out. */
export const airReadingMissing: Check = {
  name: 'thresholds/air-reading-missing',
  severity: 'error',
  title: 'A reading of the air is named that no step takes.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    const names = everyStep(procedure).flatMap(({ step }) => step.readings.map(({ name }) => name))
    for (const { study, step } of ruledSteps(procedure, configuration)) {
      for (const { name, gas, reading } of study.air) {
        if (reading !== null) continue
        yield unknownName(
          study.at,
          `Step ${step.number} takes ${gas.replaceAll('-', ' ')} from "${name}", and no step has a reading of that name.`,
          name,
          [...new Set(names)],
          `Take it: measure: { ${name}: … }.`,
        )
      }
    }
  },
}
