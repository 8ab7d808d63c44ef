import { fromFlow } from '../from-flow.ts'

/** After a pause a proof cannot be taken again where it is needed. */
export const resumeUnproved = fromFlow({
  name: 'flow/resume-unproved',
  severity: 'error',
  title: 'After a pause a proof cannot be taken again where it is needed.',
  rules: ['PK-07', 'LO-06'],
})
