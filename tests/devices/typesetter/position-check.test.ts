import { expect, it } from 'vitest'
import { layoutFaults, type PositionMark } from '../../../src/devices/typesetter/position-check.ts'

const at = (what: PositionMark['what'], page: number, y = 100, id = 'a/b'): PositionMark => ({
  what,
  id,
  number: '1.1',
  page,
  y,
})

it.each<[string, readonly PositionMark[], readonly string[]]>([
  ['a step on one page', [at('warning', 1), at('start', 1), at('end', 1)], []],
  ['a step split on purpose', [at('split', 1), at('start', 1), at('end', 3)], []],
  [
    'a step that breaks without a mark',
    [at('start', 1), at('end', 2)],
    ['Step 1.1 breaks over a page, though it is not longer than one.'],
  ],
  [
    'a warning left behind',
    [at('warning', 1), at('start', 2), at('end', 2)],
    ['The warning of step 1.1 stands on another page than the step.'],
  ],
  ['a step below the foot', [at('start', 1), at('end', 1, 900)], ['Step 1.1 runs below the foot of page 1.']],
  ['a step whose end is lost', [at('start', 1)], ['Step 1.1 has no end in print.']],
])('%s', (_name, marks, faults) => {
  expect(layoutFaults(marks, 760)).toEqual(faults)
})
