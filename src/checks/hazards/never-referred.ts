import type { Fault } from '../../findings/finding.ts'
import { valueAt } from '../../syntax/block-node.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/** A hazard was thought of and written down, and is printed before no step. */
export const hazardNeverReferred: Check = {
  name: 'hazards/never-referred',
  severity: 'warning',
  title: 'A hazard is defined at the top and no phase or step names it.',
  rules: ['SM-13', 'SM-14'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const hazards = valueAt(written.block?.map, 'hazards')
    if (hazards?.kind !== 'map') return
    const referred = new Set([
      ...procedure.phases.flatMap((phase) => phase.hazards),
      ...everyStep(procedure).flatMap(({ step }) => step.hazards),
    ])
    for (const { key, keyAt, value } of hazards.entries) {
      // A bare name takes a hazard from the catalogue for the whole job.
      const isDefined = value.kind === 'map' && value.entries.length > 0
      if (!isDefined || referred.has(key)) continue
      yield {
        at: keyAt,
        message: `The hazard "${key}" is defined, but no phase or step names it, so its message stands before nothing.`,
        advice: `Name it where it threatens: hazards: [${key}]`,
      }
    }
  },
}
