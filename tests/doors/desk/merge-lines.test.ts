import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { mergedText, mergeLines, textOfParts } from '../../../src/doors/desk/merge-lines.ts'

const lines = fc.array(fc.constantFrom('a', 'b', 'c', 'd', ''), { maxLength: 12 }).map((all) => all.join('\n'))

describe('two people in one text', () => {
  it('joins what was written in different places', () => {
    const base = 'one\ntwo\nthree\nfour\nfive'
    expect(mergedText(mergeLines(base, 'one\n2\nthree\nfour\nfive', 'one\ntwo\nthree\nfour\nfive\nsix'))).toBe(
      'one\n2\nthree\nfour\nfive\nsix',
    )
  })

  it('asks where both wrote in the same place, and only there', () => {
    const parts = mergeLines('one\ntwo\nthree', 'one\nmine\nthree', 'zero\none\ntheirs\nthree')
    expect(mergedText(parts)).toBeNull()
    expect(parts.filter(({ kind }) => kind === 'both')).toEqual([
      { kind: 'both', base: ['two'], mine: ['mine'], theirs: ['theirs'] },
    ])
    expect(textOfParts(parts, () => 'theirs')).toBe('zero\none\ntheirs\nthree')
  })

  it('takes the other text where one of the two changed nothing', () => {
    fc.assert(
      fc.property(lines, lines, (base, changed) => {
        expect(mergedText(mergeLines(base, changed, base))).toBe(changed)
        expect(mergedText(mergeLines(base, base, changed))).toBe(changed)
        expect(mergedText(mergeLines(base, changed, changed))).toBe(changed)
      }),
    )
  })

  it('loses no line of either: choosing one side everywhere keeps all that this side wrote', () => {
    fc.assert(
      fc.property(lines, lines, lines, (base, mine, theirs) => {
        const kept = textOfParts(mergeLines(base, mine, theirs), () => 'mine').split('\n')
        const wrote = mine.split('\n').filter((line) => line !== '' && !base.includes(line))
        expect(wrote.filter((line) => !kept.includes(line))).toEqual([])
      }),
    )
  })
})
