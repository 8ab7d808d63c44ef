import { fromFlow } from '../from-flow.ts'

/** A formula or condition needs a reading that was not taken on some way. */
export const readingMissing = fromFlow({
  name: 'flow/reading-missing',
  severity: 'error',
  title: 'A formula or condition needs a reading that was not taken on some way.',
  rules: ['NU-12', 'BR-10'],
})
