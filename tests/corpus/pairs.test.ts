import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { comparePair, type PairFault } from '../../src/quantities/compare-pair.ts'
import { quantitiesIn } from '../../src/quantities/find-quantities-in-text.ts'

/**
 * Every pair of values that the procedures of this folder's sources print, in our own words: facts only. Each was labelled
 * right or wrong by hand, by working it out, before the comparison was run on it.
 */
interface PrintedPair {
  readonly text: string
  readonly source: string
  readonly verdict: 'right' | 'wrong'
  readonly explains?: string
  readonly note?: string
}

const pairs: readonly PrintedPair[] = JSON.parse(readFileSync(new URL('pairs.json', import.meta.url), 'utf8'))
const right = pairs.filter(({ verdict }) => verdict === 'right')
const wrong = pairs.filter(({ verdict }) => verdict === 'wrong')

function faultsOf(text: string): readonly PairFault[] {
  const found = quantitiesIn(text).pairs
  expect(found.map(({ first, second }) => [first.limit.typed, second.limit.typed])).toHaveLength(1)
  return found.flatMap(({ first, second }) => comparePair(first.limit, second.limit))
}

function explanation(fault: PairFault | undefined): string | undefined {
  if (fault?.is === 'kind') return 'another kind'
  const slip = fault?.is === 'number' ? fault.slip : null
  if (slip?.is === 'power-of-ten') return `factor ${10 ** Math.abs(slip.exponent)}`
  return slip?.is.replace('-', ' ')
}

describe('pairs as printed', () => {
  it('are enough of both sorts to say something', () => {
    expect(right.length).toBeGreaterThan(50)
    expect(wrong.length).toBeGreaterThan(12)
    expect(pairs.filter(({ source }) => source === '')).toEqual([])
  })

  it.each(right)('$text is left alone ($source)', ({ text }) => expect(faultsOf(text)).toEqual([]))

  it.each(wrong)('$text is reported ($source)', ({ text, explains }) => {
    const faults = faultsOf(text)
    expect(faults).not.toEqual([])
    expect(faults.map(explanation)).toEqual([explains])
  })
})
