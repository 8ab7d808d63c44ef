import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { validators } from '#generated/schema-validators'
import type { BlockNode } from '../../../src/syntax/block-node.ts'
import { blockKeys } from '../../../src/syntax/fit-block-schema.ts'
import { fitBlock } from '../../../src/syntax/fit-schema.ts'
import { nodeOf } from './node-of.ts'

const words = fc.constantFrom(
  'left',
  'stop',
  'max 3 mm',
  '640 kg, legs 2',
  'a, b',
  '4 × M20 8.8',
  'found',
  '3',
  'x y',
  ',',
  'limit',
)
const names = fc.constantFrom(
  ...'limit load with at else go redo stop ask branches when hub left each until values start end'.split(' '),
)
const anything = fc.letrec<{ value: unknown }>((tie) => ({
  value: fc.oneof(
    { depthSize: 'small', withCrossShrink: true },
    words,
    fc.array(tie('value'), { maxLength: 3 }),
    fc.dictionary(names, tie('value'), { maxKeys: 4 }),
  ),
})).value

describe('any value under any key', () => {
  it('leaves only what its schema accepts, and reports whatever it takes out', () => {
    fc.assert(
      fc.property(fc.constantFrom(...blockKeys), anything, ([key, schema], typed) => {
        const map = nodeOf({ [key]: typed })
        if (map.kind !== 'map') throw new Error('a map was made')
        const place = schema.places?.[0] ?? 'step'
        const { value, findings } = fitBlock({ map, at: map.at }, place)
        const [left] = value.map.entries
        if (left !== undefined) expect(validators[`blocks/${key}`]?.(plain(left.value))).toBe(true)
        else expect(findings).not.toEqual([])
        for (const { message, advice } of findings) expect(`${message} ${advice}`).not.toMatch(/undefined|\[object/)
      }),
      { numRuns: 1000 },
    )
  })
})

function plain(node: BlockNode): unknown {
  if (node.kind === 'scalar') return node.text
  if (node.kind === 'list') return node.items.map(plain)
  return Object.fromEntries(node.entries.map(({ key, value }) => [key, plain(value)]))
}
