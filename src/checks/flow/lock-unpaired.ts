import { fromFlow } from '../from-flow.ts'

/** A lock is not taken off, or one is taken off that is not on. */
export const lockUnpaired = fromFlow({
  name: 'flow/lock-unpaired',
  severity: 'error',
  title: 'A lock is not taken off, or one is taken off that is not on.',
  rules: ['LO-11', 'LO-03'],
})
