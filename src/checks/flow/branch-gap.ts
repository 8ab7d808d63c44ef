import type { Fault } from '../../findings/finding.ts'
import type { ConditionSpace } from '../../quantities/condition-cells.ts'
import type { Check, CheckSubject } from '../check.ts'
import { domainsOf, positionOf } from '../condition-domains.ts'
import { combinationsInWords } from '../condition-words.ts'
import { readCondition, spaceOfConditions } from '../conditions.ts'
import { everyWrittenStep } from '../every-step.ts'
import { placeOfFormula } from '../formulas.ts'
import { triedGap } from '../tried-gap.ts'

/**
 * Accept above 5, reject below 5: at exactly 5 the page has no way on.
 *
 * Every combination is looked at where the conditions are of figures, answers and states against fixed values, and no two of
 * them rest on one another. Where they do, readings are tried: what is found is a gap, and of the rest nothing is said.
 */
export const branchGap: Check = {
  name: 'flow/branch-gap',
  severity: 'error',
  title: 'For some readings no branch of a decision holds.',
  rules: ['BR-04'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const domains = domainsOf(procedure, { afterElse: true })
    for (const { step, phase } of everyWrittenStep(procedure)) {
      const branches = step.decide?.branches ?? []
      // Where people answer, or the rest is named, nothing is left open.
      if (branches.length === 0 || branches.some(({ when }) => when === null)) continue
      const read = branches.map(({ when }) => readCondition(when ?? '', domains(positionOf(phase))))
      const known = read.filter((condition) => condition !== null)
      const space = known.length === read.length ? spaceOfConditions(known) : null
      const says = space?.isExact ? gapIn(space) : triedGap(procedure, { step, phase })
      const last = branches.at(-1)
      if (!says || !last) continue
      yield {
        at: placeOfFormula(written, last.when ?? '', last.at),
        message: `Nothing follows when ${says}.`,
        advice: 'Let one condition end where the next begins (`<` beside `>=`), or add `{ otherwise: … }`.',
        related: branches.slice(0, -1).map(({ when, at }) => ({
          at: placeOfFormula(written, when ?? '', at),
          message: 'This condition does not hold then either.',
        })),
      }
    }
  },
}

function gapIn(space: ConditionSpace): string {
  return combinationsInWords(space, (combination) => space.truths.every((holds) => holds[combination] === 0))
}
