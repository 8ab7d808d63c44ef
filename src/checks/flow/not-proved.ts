import { fromFlow } from '../from-flow.ts'

/** There are more ways through the work than can be followed. */
export const notProved = fromFlow({
  name: 'flow/not-proved',
  severity: 'error',
  title: 'There are more ways through the work than can be followed.',
  rules: [],
})
