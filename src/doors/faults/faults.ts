import type { FaultKind } from '../../findings/finding.ts'

export const numberTakenTwice: FaultKind = {
  name: 'document/number-taken-twice',
  severity: 'error',
  title: 'Two procedures carry the same number and revision.',
}

export const numberNotAName: FaultKind = {
  name: 'document/number-not-a-name',
  severity: 'error',
  title: 'A number or revision has signs in it that cannot stand in the name of a folder.',
}
