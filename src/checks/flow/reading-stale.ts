import { fromFlow } from '../from-flow.ts'

/** A formula or condition uses a reading that no longer counts. */
export const readingStale = fromFlow({
  name: 'flow/reading-stale',
  severity: 'error',
  title: 'A formula or condition uses a reading that no longer counts.',
  rules: ['NU-12'],
})
