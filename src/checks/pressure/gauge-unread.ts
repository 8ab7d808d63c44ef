import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep, stepsBelow } from '../every-step.ts'
import { everyLetOut } from '../let-out.ts'
import { unknownName } from '../unknown-name.ts'

/** A gauge that was read before the valve was opened shows nothing of what is left. */
export const gaugeUnread: Check = {
  name: 'pressure/gauge-unread',
  severity: 'error',
  title: 'The reading that is to show that a pressure is gone is never taken, or only before it is let out.',
  rules: ['LO-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyStep(procedure).map(({ step }) => step)
    const names = [...new Set(steps.flatMap(({ readings }) => readings.map(({ name }) => name)))]
    for (const { study, step } of everyLetOut(procedure)) {
      if (study.gauge === null) continue
      const { name } = study.gauge
      const taken = steps.filter(({ readings }) => readings.some((reading) => reading.name === name))
      const last = taken.at(-1)
      if (last === undefined) {
        yield unknownName(
          study.at,
          `Step ${step.number} lets out "${study.name}" until "${name}" shows it, and no step has a reading of that name.`,
          name,
          names,
          `Take it: measure: { ${name}: "max 0.5 MPa, with …" }.`,
        )
        continue
      }
      const below = stepsBelow([step]).map(({ baseId }) => baseId)
      const isLater = steps.indexOf(last) > steps.findIndex(({ id }) => id === step.id)
      if (isLater || below.includes(last.baseId)) continue
      yield {
        at: study.at,
        message: `Step ${step.number} lets out "${study.name}", and "${name}" is read only before, in step ${last.number}.`,
        advice: `Read ${name} in this step or after it.`,
      }
    }
  },
}
