import type { Fault } from '../../findings/finding.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { compare } from '../../quantities/rational.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { Check, CheckSubject } from '../check.ts'
import { entryOf, textIn } from '../entry-data.ts'
import { everyWrittenStep } from '../every-step.ts'

/** Nobody can go on at the earliest and be in time for the latest. */
export const waitCrossed: Check = {
  name: 'schedule/wait-crossed',
  severity: 'error',
  title: 'A wait ends at the latest before it ends at the earliest.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const part of [...procedure.phases, ...everyWrittenStep(procedure).map(({ step }) => step)]) {
      const entry = entryOf(part, 'wait')
      if (entry === undefined || !Array.isArray(entry.data)) continue
      for (const wait of entry.data as readonly PlainValue[]) {
        const typed = textIn(wait, 'limit')
        const limit = typed === null ? null : parseLimit(typed, 'time')
        if (typed === null || !limit?.ok) continue
        const { lower, upper } = limit.value
        if (lower === null || upper === null || compare(lower.value, upper.value) <= 0) continue
        yield {
          at: entry.at,
          message: `The wait "${typed}" is over at the latest before it is over at the earliest: nobody can keep it.`,
          advice: 'Write the shorter time first, like 8 h to 24 h.',
        }
      }
    }
  },
}
