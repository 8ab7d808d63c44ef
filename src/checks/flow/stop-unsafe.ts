import { fromFlow } from '../from-flow.ts'

/** The work stops, or waits long, and leaves something as it must not be left. */
export const stopUnsafe = fromFlow({
  name: 'flow/stop-unsafe',
  severity: 'error',
  title: 'The work stops, or waits long, and leaves something as it must not be left.',
  rules: ['PK-07', 'LO-15'],
})
