import { fromFlow } from '../from-flow.ts'

/** Nothing carries a part on some way through the work. */
export const unheld = fromFlow({
  name: 'flow/unheld',
  severity: 'error',
  title: 'Nothing carries a part on some way through the work.',
  rules: ['LO-15', 'LI-06', 'LI-10'],
})
