import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/**
 *     step 3: snug: [cap-bolts]
 *     step 9: torque: { cap-bolts: … }   ← finishes it; without one, the bolts go to work finger tight
 */
export const snugNeverTightened: Check = {
  name: 'torque/snug-never-tightened',
  severity: 'error',
  title: 'Fasteners are made snug and never tightened to their torque.',
  rules: ['RC-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyStep(procedure).map(({ step }) => step)
    for (const [index, step] of steps.entries()) {
      for (const { id, at } of step.snug) {
        // The step itself counts: its torque comes after the snugging.
        const later = steps.slice(index).some((other) => other.torques.some((torque) => sameName(torque.id, id)))
        if (later || steps.slice(index).some((other) => other.removes.some((thing) => thing.id === id))) continue
        yield {
          at,
          message: `"${id}" is made snug in step ${step.number}, and no later torque has that name.`,
          advice: `Add the final tightening: torque: { ${id}: … }`,
        }
      }
    }
  },
}

/** A torque of a repeated step may carry its position behind a dot or an `@`. */
const sameName = (torque: string, thing: string): boolean => torque.split(/[@.]/)[0] === thing.split(/[@.]/)[0]
