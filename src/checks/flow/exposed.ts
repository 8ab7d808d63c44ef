import { fromFlow } from '../from-flow.ts'

/** Somebody works where it is not safe, on purpose and with agreed controls. */
export const exposed = fromFlow({
  name: 'flow/exposed',
  severity: 'advice',
  title: 'Somebody works where it is not safe, on purpose and with agreed controls.',
  rules: ['HP-08'],
})
