import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWear } from '../wears.ts'

/** A log that cannot be read shows no trend, and nobody would miss it. */
export const wearLogUnreadable: Check = {
  name: 'wear/log-unreadable',
  severity: 'error',
  title: 'The log of a worn part cannot be read as times and readings.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study } of everyWear(procedure)) {
      const problem = study.log?.problem
      if (problem) yield { at: study.at, message: problem.message, advice: problem.advice }
    }
  },
}
