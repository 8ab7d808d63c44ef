import { fromFlow } from '../from-flow.ts'

/** Somebody is exposed to a state whose proof is older than it may be. */
export const proofLapsed = fromFlow({
  name: 'flow/proof-lapsed',
  severity: 'error',
  title: 'Somebody is exposed to a state whose proof is older than it may be.',
  rules: ['HP-10', 'LO-06'],
})
