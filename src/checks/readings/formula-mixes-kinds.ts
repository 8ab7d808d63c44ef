import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { checkKnown, formulaNames } from '../formula-names.ts'
import { everyFormula } from '../formulas.ts'

/** Millimetres are added to newtons, a pressure is compared with a torque: nobody can work it out. */
export const formulaMixesKinds: Check = {
  name: 'readings/formula-mixes-kinds',
  severity: 'error',
  title: 'A condition or formula puts values together that do not go together.',
  rules: ['NU-12', 'NU-21'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const known = formulaNames(procedure)
    for (const { read, part } of everyFormula(procedure, written)) {
      if (!('expression' in read)) continue
      for (const { message, advice, from, to } of checkKnown(read.expression, known)?.problems ?? [])
        yield { at: part(from, to), message, advice }
    }
  },
}
