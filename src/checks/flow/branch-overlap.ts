import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { domainsOf, positionOf } from '../condition-domains.ts'
import { combinationsInWords } from '../condition-words.ts'
import { readCondition, spaceOfConditions } from '../conditions.ts'
import { everyWrittenStep } from '../every-step.ts'
import { placeOfFormula } from '../formulas.ts'

/** Two branches hold for one reading: the page takes the first, the fitter with the sheet the one that suits him. */
export const branchOverlap: Check = {
  name: 'flow/branch-overlap',
  severity: 'error',
  title: 'For some readings two branches of a decision hold.',
  rules: ['BR-06'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const domains = domainsOf(procedure, { afterElse: true })
    for (const { step, phase } of everyWrittenStep(procedure)) {
      const branches = (step.decide?.branches ?? []).filter(({ when }) => when !== null)
      const read = branches.map(({ when }) => readCondition(when ?? '', domains(positionOf(phase))))
      for (const [index, later] of branches.entries()) {
        for (const [before, earlier] of branches.slice(0, index).entries()) {
          const pair = [read[before], read[index]].filter((one) => one !== null && one !== undefined)
          const space = pair.length === 2 ? spaceOfConditions(pair) : null
          if (!space?.isExact) continue
          const says = combinationsInWords(space, (at) => space.truths.every((holds) => holds[at] === 1))
          if (says === '') continue
          yield {
            at: placeOfFormula(written, later.when ?? '', later.at),
            message: `This condition and "${earlier.when}" both hold when ${says}.`,
            advice:
              'Let one condition end where the other begins, or say in the second what the first leaves: `… and not (…)`.',
            related: [{ at: placeOfFormula(written, earlier.when ?? '', earlier.at), message: 'The other condition.' }],
          }
        }
      }
    }
  },
}
