import { fromFlow } from '../from-flow.ts'

/** No way leads to a step or branch. */
export const unreachable = fromFlow({
  name: 'flow/unreachable',
  severity: 'error',
  title: 'No way leads to a step or branch.',
  rules: ['BR-10'],
})
