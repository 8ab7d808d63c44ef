import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { faultOf, missingValues } from '../missing-values.ts'

/** A draft may have holes; they are listed so that none is forgotten. */
export const valueToFill: Check = {
  name: 'document/value-to-fill',
  severity: 'warning',
  title: 'A value is still missing (`??`) in a draft.',
  rules: [],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    if (procedure.document.status !== 'draft') return
    for (const at of missingValues(written)) yield faultOf(at, 'it is printed as VALUE MISSING.')
  },
}
