import { fromFlow } from '../from-flow.ts'

/** A place becomes unsafe while somebody is in it. */
export const zoneNotCleared = fromFlow({
  name: 'flow/zone-not-cleared',
  severity: 'error',
  title: 'A place becomes unsafe while somebody is in it.',
  rules: ['LI-05', 'LO-10'],
})
