import { fromFlow } from '../from-flow.ts'

/** Somebody is sent where it is not safe on some way through the work. */
export const zoneUnsafe = fromFlow({
  name: 'flow/zone-unsafe',
  severity: 'error',
  title: 'Somebody is sent where it is not safe on some way through the work.',
  rules: ['HP-10', 'LO-01', 'LI-05'],
})
