import { fromFlow } from '../from-flow.ts'

/** States that must never be together are together on some way. */
export const forbiddenTogether = fromFlow({
  name: 'flow/forbidden-together',
  severity: 'error',
  title: 'States that must never be together are together on some way.',
  rules: ['HW-06'],
})
