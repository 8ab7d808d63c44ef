import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** A crib taller than three times its base goes over before it is crushed, and half a measure carries nothing. */
export const supportBuildMisfit: Check = {
  name: 'support/build-misfit',
  severity: 'warning',
  title: 'A crib is too tall for its base, or the measures of a crib, plank or prop do not go together.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, built } of loadsOf(procedure).supports) {
      if (built?.problem)
        yield {
          at: block.at,
          message: `The ${built.what} under "${block.name}": ${built.problem.message}`,
          advice: built.problem.advice,
        }
      if (built?.isTooTall)
        yield {
          at: block.at,
          message: `The crib under "${block.name}" is taller than three times its base: it goes over before it is crushed.`,
          advice: 'Build it on longer timbers, or lower.',
        }
    }
  },
}
