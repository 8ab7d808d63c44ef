import { expect, it } from 'vitest'
import { readRules } from '../../src/build/write-rule-coverage.mjs'
import { checks } from '../../src/checks/list.ts'
import { textOf } from './source-files.ts'

/**
 * A rule that was recalled and not read may warn, but not block a procedure. These errors keep such a rule and rest on
 * something else as well; the words stand at the opening of the page.
 */
const restsOn: Readonly<Record<string, string>> = {
  'flow/branch-gap': '29 CFR 1910.119(f)(1)(ii)',
  'flow/left-snug': '29 CFR 1910.147(e)(1)',
  'flow/need-unmet': '29 CFR 1910.147(d)',
  'flow/not-put-back': '29 CFR 1910.147(e)(1)',
  'flow/proof-bypassed': '10 CFR 50, appendix B, criterion XIV',
  'flow/reading-missing': 'DOE-STD-1036-93',
  'flow/unheld': '30 CFR 56.14206(b)',
  'flow/unreachable': 'House rule of the language.',
  'numbers/pair-does-not-convert': 'NIST',
  'readings/condition-never-met': 'TM 5-3805-261-34',
  'readings/formula-mixes-kinds': 'NIST SP 811 (2008), chapter 11',
  'readings/instrument-of-another-kind': 'NIST SP 811, chapter 11',
  'readings/instrument-out-of-range': 'Procedures audit tool',
  'readings/limit-never-met': 'House rule of the language.',
  'readings/limits-crossed': 'House rule of the language.',
  'readings/unit-of-another-kind': 'NIST SP 811 (2008), chapter 11',
  'references/unknown-reading': 'House rule of the language.',
  'references/unknown-state': 'House rule of the language.',
  'references/unknown-state-value': 'House rule of the language.',
  'references/unknown-variant': 'House rule of the language.',
}

const fromMemory = new Set(readRules().flatMap(({ id, basis }) => (basis === 'memory' ? [id] : [])))
const errors = checks.filter(({ severity, rules }) => severity === 'error' && rules.some((id) => fromMemory.has(id)))

it('no error rests on a rule from memory alone', () => {
  expect(fromMemory.size).toBeGreaterThan(20)
  expect(errors.map(({ name }) => name).filter((name) => !(name in restsOn))).toEqual([])
})

it('what an error rests on instead stands on its page', () => {
  const opening = (name: string) => (textOf(`src/checks/${name}.md`).split(/^## /m)[0] ?? '').replace(/\s+/g, ' ')
  const silent = errors.filter(({ name }) => !opening(name).includes(restsOn[name] ?? name))
  expect(silent.map(({ name }) => name)).toEqual([])
})

it('the list names no check that is not such an error', () => {
  const names = new Set(errors.map(({ name }) => name))
  expect(Object.keys(restsOn).filter((name) => !names.has(name))).toEqual([])
})
