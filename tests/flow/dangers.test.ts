import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { allFindings, flowFaultNames, naiveFaultNames, otherFindings } from './flow-faults.ts'

interface Danger {
  readonly name: string
  /** Kinds of finding that the dangerous one has, all of them. */
  readonly expected: readonly string[]
}

/** Procedures that read well and are not safe; written down before anything had looked at them. */
const dangers: readonly Danger[] = [
  { name: '01-signed-for-something-else', expected: ['flow/proof-missing'] },
  { name: '02-gauge-says-no', expected: ['flow/proof-bypassed'] },
  { name: '03-fitter-never-came-out', expected: ['flow/zone-not-cleared'] },
  { name: '04-hands-in-without-a-word', expected: ['flow/zone-unnamed'] },
  { name: '05-the-other-hub-is-slung', expected: ['flow/unheld'] },
  { name: '06-torch-on-a-capped-cylinder', expected: ['flow/forbidden-together'] },
  { name: '07-isolated-because-it-always-is', expected: ['flow/proof-missing'] },
  { name: '08-yesterdays-signature', expected: ['flow/proof-lapsed'] },
  { name: '09-torch-under-the-body', expected: ['flow/zone-unnamed'] },
  { name: '10-twelve-bolts-in-the-tray', expected: ['flow/not-put-back'] },
  { name: '11-the-third-try-is-out-too', expected: ['flow/proof-bypassed'] },
  { name: '12-the-other-job-bled-it', expected: ['flow/energy-undeclared'] },
  { name: '13-no-hoist-on-site', expected: ['flow/unheld'] },
  { name: '14-power-for-a-direction-test', expected: ['flow/lockout-order', 'flow/zone-unsafe'] },
  { name: '15-guard-after-the-test-run', expected: ['flow/guard-off-at-start'] },
]

/** Kinds that a check of its own finds, without walking the ways. */
const byAnotherCheck = new Set(['flow/zone-unnamed', 'flow/energy-undeclared'])

const read = (name: string): string => readFileSync(new URL(`dangers/${name}`, import.meta.url), 'utf8')
const files = { 'shared/machines/haul-truck-40.yaml': read('haul-truck-40.yaml') }

describe('dangerous procedures that read well', () => {
  it('are all in the table', () => {
    const written = readdirSync(new URL('dangers/', import.meta.url)).filter((name) => name.endsWith('.md'))
    expect(written.sort()).toEqual(dangers.flatMap(({ name }) => [`${name}.md`, `${name}.repaired.md`]).sort())
  })

  describe.each(dangers)('$name', ({ name, expected }) => {
    const dangerous = read(`${name}.md`)
    const repaired = read(`${name}.repaired.md`)
    const walked = expected.filter((kind) => !byAnotherCheck.has(kind)).map((kind) => kind.replace('flow/', ''))

    it('has 8 to 20 steps, and is otherwise clean', () => {
      const steps = dangerous.match(/^\d+\. /gm)?.length ?? 0
      expect([steps >= 8, steps <= 20]).toEqual([true, true])
      const rest = otherFindings(dangerous, files).map((finding) => finding.split(':')[0] ?? '')
      expect(rest.filter((kind) => !expected.includes(kind))).toEqual([])
    })

    it('shows exactly what was expected on its ways', () => {
      expect(flowFaultNames(dangerous, files)).toEqual(walked)
      expect(naiveFaultNames(dangerous, files)).toEqual(walked)
    })

    const others = expected.filter((kind) => byAnotherCheck.has(kind))
    it.runIf(others.length > 0)('is found by a check of its own', () => {
      const kinds = allFindings(dangerous, files).map((finding) => finding.split(':')[0])
      expect([...new Set(kinds)]).toEqual(others)
    })

    it('has nothing at all once it is repaired', () => {
      expect(allFindings(repaired, files)).toEqual([])
      expect(flowFaultNames(repaired, files)).toEqual([])
      expect(naiveFaultNames(repaired, files)).toEqual([])
    })
  })
})
