import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyFormula } from '../formulas.ts'

/** A condition or formula that nobody can work out decides nothing. */
export const formulaUnreadable: Check = {
  name: 'readings/formula-unreadable',
  severity: 'error',
  title: 'A condition or formula cannot be read.',
  rules: ['NU-12'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { read, part } of everyFormula(procedure, written)) {
      if (!('problem' in read)) continue
      const { message, advice, from, to } = read.problem
      yield { at: part(from, to), message, advice }
    }
  },
}
