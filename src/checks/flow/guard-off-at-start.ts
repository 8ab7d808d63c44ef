import { fromFlow } from '../from-flow.ts'

/** A machine starts while a guard is off. */
export const guardOffAtStart = fromFlow({
  name: 'flow/guard-off-at-start',
  severity: 'error',
  title: 'A machine starts while a guard is off.',
  rules: ['RC-03', 'LO-10'],
})
