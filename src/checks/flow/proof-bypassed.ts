import { fromFlow } from '../from-flow.ts'

/** One way through the work goes around the proof that another way takes. */
export const proofBypassed = fromFlow({
  name: 'flow/proof-bypassed',
  severity: 'error',
  title: 'One way through the work goes around the proof that another way takes.',
  rules: ['HP-09', 'BR-10'],
})
