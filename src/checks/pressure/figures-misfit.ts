import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyLetOut } from '../let-out.ts'

/** A force out of a rod thicker than its bore is no force; and nobody would see why there is none. */
export const pressureFiguresMisfit: Check = {
  name: 'pressure/figures-misfit',
  severity: 'error',
  title: 'The figures of a stored energy do not go together.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study } of everyLetOut(procedure)) {
      const { problem, at, name } = study
      if (problem) yield { at, message: `"${name}": ${problem.message}`, advice: problem.advice }
    }
  },
}
