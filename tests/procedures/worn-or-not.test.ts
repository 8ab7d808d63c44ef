import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'

const page = readFileSync('procedures/README.md', 'utf8')
const section = page.slice(page.indexOf('## Worn, or not'), page.indexOf('## What the language settles'))
const text = /^````md\n([\s\S]*?)^````$/m.exec(section)?.[1] ?? ''

function compiled(changed: string) {
  const file = 'procedures/drive-chain/drive-chain.md'
  return compileProcedure(file, openLibrary(mapLibrary({ [file]: changed })))
}

const namesOf = (changed: string) => compiled(changed).findings.map(({ name }) => name)

/** Replace or reuse by criteria, as the reference shows it. */
describe('worn, or not', () => {
  it('compiles without a word, with the limits of wear and the day the log meets them', () => {
    const { findings, stepFile } = compiled(text)
    expect(findings).toEqual([])
    const says = stepFile?.phases[0]?.steps[0]?.workings.map((working) => working.says.replace(/\s/g, ' '))
    // 24 × 25.4 mm = 609.6 mm; 200/80 = 2.5 %; the line through the three rows rises 6.5 mm in a year.
    expect(says).toEqual([
      'New 609.6 mm over 24 pitches, worn out at 624.84 mm: 2.5 % longer.',
      'By its log it rises by 0.125 mm in a week and meets 624.84 mm about 2027-05-11, perhaps from 2027-03-16 on.',
    ])
  })

  it.each([
    ['a criterion that no step takes', 'link-look = good, go', 'links = good, go', 'references/unknown-reading'],
    ['a look that no branch uses', ' and link-look = good, go', ', go', 'readings/limit-without-consequence'],
    ['a case without a branch', '{ otherwise: renew }', '{ when: link-look = cracked, go: renew }', 'flow/branch-gap'],
    ['an outcome that leads nowhere', 'otherwise: renew', 'otherwise: scrap', 'model/unknown-target'],
    ['a wear that no reading is taken for', 'wear: { drive-chain', 'wear: { timing-chain', 'wear/reading-missing'],
    ['a log that no table has', 'log chain-log', 'log wear-log', 'wear/log-unreadable'],
  ])('tells %s', (_, from, to, finding) => {
    expect(text).toContain(from)
    expect(namesOf(text.replace(from, to)).join()).toContain(finding)
  })
})
