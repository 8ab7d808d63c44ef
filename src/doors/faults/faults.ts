import type { FaultKind } from '../../findings/finding.ts'

export const numberTakenTwice: FaultKind = {
  name: 'document/number-taken-twice',
  severity: 'error',
  title: 'Two procedures carry the same number and revision.',
}
