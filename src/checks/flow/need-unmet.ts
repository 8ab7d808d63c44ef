import { fromFlow } from '../from-flow.ts'

/** A step begins, on some way, without a state that it needs. */
export const needUnmet = fromFlow({
  name: 'flow/need-unmet',
  severity: 'error',
  title: 'A step begins, on some way, without a state that it needs.',
  rules: ['BR-10', 'LO-01'],
})
