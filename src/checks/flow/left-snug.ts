import { fromFlow } from '../from-flow.ts'

/** Fasteners are made snug and, on some way, never tightened. */
export const leftSnug = fromFlow({
  name: 'flow/left-snug',
  severity: 'error',
  title: 'Fasteners are made snug and, on some way, never tightened.',
  rules: ['RC-04', 'NU-20'],
})
