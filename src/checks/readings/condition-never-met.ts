import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { domainsOf } from '../condition-domains.ts'
import { everyCondition, readCondition, spaceOfConditions } from '../conditions.ts'
import { placeOfFormula } from '../formulas.ts'

/** "Less than 0.13 mm and more than 0.64 mm": no shim is both, and what rests on it is never done. */
export const conditionNeverMet: Check = {
  name: 'readings/condition-never-met',
  severity: 'error',
  title: 'No reading can meet a condition.',
  rules: ['NU-13', 'BR-02'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const domains = domainsOf(procedure, { afterElse: false })
    for (const { text, at, here } of everyCondition(procedure)) {
      const read = readCondition(text, domains(here))
      const space = read && spaceOfConditions([read])
      // Where subjects rest on one another, more is looked at than can be seen: none of it is none all the same.
      if (!space || space.truths[0]?.some((holds) => holds === 1)) continue
      yield {
        at: placeOfFormula(written, text, at),
        message: `No reading can meet "${text}".`,
        advice: 'Look at the figures and at `and`: where either will do, type `or`.',
      }
    }
  },
}
