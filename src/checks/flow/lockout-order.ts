import { fromFlow } from '../from-flow.ts'

/** Isolation, locks and proof do not follow one another as they must. */
export const lockoutOrder = fromFlow({
  name: 'flow/lockout-order',
  severity: 'error',
  title: 'Isolation, locks and proof do not follow one another as they must.',
  rules: ['LO-01', 'LO-09', 'LO-10'],
})
