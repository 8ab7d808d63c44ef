import { fromFlow } from '../from-flow.ts'

/** What must hold throughout does not hold throughout. */
export const spanBroken = fromFlow({
  name: 'flow/span-broken',
  severity: 'error',
  title: 'What must hold throughout does not hold throughout.',
  rules: ['HW-04', 'LO-06'],
})
