import { fromFlow } from '../from-flow.ts'

/** Somebody is exposed to a state that changed after it was proved. */
export const proofStale = fromFlow({
  name: 'flow/proof-stale',
  severity: 'error',
  title: 'Somebody is exposed to a state that changed after it was proved.',
  rules: ['HP-02', 'LO-09'],
})
