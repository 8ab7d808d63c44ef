import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { faultOf, missingValues } from '../missing-values.ts'

/** A sheet that goes to the machine with a hole where a figure should be gets filled by guessing. */
export const valueMissing: Check = {
  name: 'document/value-missing',
  severity: 'error',
  title: 'A value is missing (`??`) in a document that is no draft.',
  rules: [],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { status } = procedure.document
    if (status === 'draft') return
    for (const at of missingValues(written))
      yield faultOf(at, `?? may stand in a draft only, and the status is ${status}.`)
  },
}
