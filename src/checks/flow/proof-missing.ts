import { fromFlow } from '../from-flow.ts'

/** Somebody is exposed to a state that nothing has proved. */
export const proofMissing = fromFlow({
  name: 'flow/proof-missing',
  severity: 'error',
  title: 'Somebody is exposed to a state that nothing has proved.',
  rules: ['HP-10', 'LO-05', 'LO-01'],
})
