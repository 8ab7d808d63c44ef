import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { calculators } from '../../src/trade/calculators.ts'
import { type CaseFile, readCaseFile } from './case-file.ts'
import { perturbed } from './compare.ts'
import { mappings } from './mappings.ts'
import { runCase, runFile } from './run-cases.ts'

const folder = import.meta.dirname
const all: readonly CaseFile[] = readdirSync(folder)
  .filter((name) => name.endsWith('.json'))
  .map((name) => readCaseFile(readFileSync(join(folder, name), 'utf8'), name))
const files = all.filter(({ family }) => family in mappings)

function numbersIn(value: unknown): readonly number[] {
  if (typeof value === 'number') return [value]
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbersIn) : []
}

/* Each case names its source in the file, under `source`. Cases from memory are told by `npm run values` and hold nothing up. */
describe.each(files.map((file) => [file.family, file] as const))('published values: %s', (family, file) => {
  const own = mappings[family] ?? []

  it('works out every case', () => {
    const wrong = runFile(file, own, calculators).filter(
      ({ status, basis }) => status !== 'passed' && basis !== 'memory',
    )
    expect(wrong).toEqual([])
    expect(file.cases.length).toBeGreaterThan(10)
  })

  it('fails every case for each expected value that is made wrong', () => {
    const held = own.flatMap(({ aside }) => aside ?? [])
    let tried = 0
    const missed = file.cases.flatMap((each) =>
      [...each.expected].flatMap(([name, value]) => {
        if (held.includes(name)) return []
        return perturbed(value).flatMap((wrong) => {
          tried++
          const expected = new Map([...each.expected, [name, wrong]])
          const { status } = runCase({ ...each, expected }, own, calculators)
          return status === 'failed' ? [] : [`${each.id}: ${name} as ${JSON.stringify(wrong.value)}`]
        })
      }),
    )
    expect(missed).toEqual([])
    expect(tried).toBeGreaterThanOrEqual(file.cases.length)
  })
})

describe('mappings', () => {
  const texts = readdirSync(join(folder, 'mapping')).map((name) => readFileSync(join(folder, 'mapping', name), 'utf8'))
  const cases = all.flatMap((file) => file.cases)

  /** Names and units of the cases may hold digits; so may words that look like a name. */
  const names = new Set(
    cases.flatMap(({ inputs, expected }) =>
      [...inputs, ...expected].flatMap(([name, { unit }]) => [name, ...(unit === null ? [] : [unit])]),
    ),
  )
  const inNames = new Set([...names].flatMap((name) => name.match(/\d+/g) ?? []))
  const ofCases = new Set(
    cases.flatMap(({ inputs, expected }) =>
      [...inputs.values(), ...expected.values()].flatMap(({ value }) => numbersIn(value)),
    ),
  )
  const isName = (text: string) => names.has(text) || /^[A-Za-z]\w*$/.test(text)
  /** A number of some case that is no part of a name; positions of one digit are left alone in code. */
  const isOfCase = (number: string) => ofCases.has(Number(number)) && !inNames.has(number)

  it('name no case by its id or title', () => {
    expect(cases.length).toBeGreaterThan(150)
    const told = cases.flatMap(({ id, title }) =>
      texts.filter((text) => text.includes(id) || text.includes(title)).map(() => id),
    )
    expect(told).toEqual([])
  })

  it('hold no number of a case', () => {
    const wrong = texts.flatMap((text) => {
      const code = text
        .replace(/\/\*[\s\S]*?\*\/|(?<=^|\s)\/\/[^\n]*/g, '')
        .replace(/^import [\s\S]*? from '[^']*'$/gm, '')
      const quoted = [...code.matchAll(/'([^'\n]*)'|`([^`]*)`/g)].map(([, single, back]) => single ?? back ?? '')
      const bare = code.replace(/'[^'\n]*'|`[^`]*`/g, "''")
      return [
        ...quoted.filter((each) => !isName(each) && (each.match(/\d+(?:\.\d+)?/g) ?? []).some(isOfCase)),
        ...[...bare.matchAll(/(?<![\w.])\d+(?:\.\d+)?(?![\w.])/g)]
          .map(([number]) => number)
          .filter((number) => number.length > 1 && isOfCase(number)),
      ]
    })
    expect(wrong).toEqual([])
  })
})

describe('cases that are kept apart', () => {
  interface Signature {
    readonly family: string
    readonly inputs: Readonly<Record<string, string>>
    readonly expected: Readonly<Record<string, string>>
  }
  const signatures: readonly Signature[] = JSON.parse(readFileSync(join(folder, 'signatures/published.json'), 'utf8'))

  /** Names alone do not tell what these ask for, and a guess would be worse than none. */
  const unsettled: Readonly<Record<string, string>> = {
    'fasteners: d, threads → factor':
      'which factor of a thread is meant: stress area over full area, or one of torsion',
    'fasteners: lubricant → mu':
      'whose table; friction of a lubricant differs from source to source by a factor of two',
    'measurement: bore, journal → sleeve, out_of_round':
      'whether a clearance in a sleeve or the wall of a repair sleeve',
  }

  it('have a mapping by their names, but for those that names do not settle', () => {
    const told = signatures.map(({ family, inputs, expected }) => {
      const names = { inputs: Object.keys(inputs), expected: Object.keys(expected) }
      const isMapped = (mappings[family] ?? []).some((mapping) => {
        const [given, wanted] =
          'work' in mapping
            ? [mapping.inputs, mapping.expected]
            : [Object.keys(mapping.inputs), Object.keys(mapping.expected)]
        const known = [...wanted, ...(mapping.aside ?? [])]
        return (
          names.inputs.every((name) => given.includes(name)) && names.expected.every((name) => known.includes(name))
        )
      })
      return { title: `${family}: ${names.inputs.join(', ')} → ${names.expected.join(', ')}`, isMapped }
    })
    expect(signatures.length).toBeGreaterThan(50)
    expect([...new Set(told.filter(({ isMapped }) => !isMapped).map(({ title }) => title))].sort()).toEqual(
      Object.keys(unsettled).sort(),
    )
  })
})
