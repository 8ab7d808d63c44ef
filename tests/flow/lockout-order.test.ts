import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { flowFaultNames, naiveFaultNames, otherFindings } from './flow-faults.ts'
import { stepsSwapped, stepWithout } from './rewrite-steps.ts'

/**
 * 29 CFR 1910.147 Control of hazardous energy, (d) Application of control, (e) Release from lockout or tagout, (f)(1) Testing
 * or positioning; from memory of the standard's order: (d)(1) preparation, (2) shutdown, (3) isolation, (4) device on,
 * (5) stored energy, (6) verification; (e)(1) the work area inspected, (2) people clear, and told after devices come off and
 * before energy comes back, (3) each device off by who put it on; (f)(1) tools cleared, people out, devices off, energised
 * and tested, de-energised and all put back on. (c)(9) notifies people before and after.
 */
const read = (name: string): string => readFileSync(new URL(`lockout/${name}`, import.meta.url), 'utf8')
const files = { 'shared/machines/conveyor-7.yaml': read('conveyor-7.yaml') }
const whole = read('full-order.md')

type Change = (text: string) => string
const without =
  (...ids: readonly string[]): Change =>
  (text) =>
    ids.reduce(stepWithout, text)
const swapped =
  (first: string, second: string): Change =>
  (text) =>
    stepsSwapped(text, first, second)
const replaced =
  (before: string, after: string): Change =>
  (text) => {
    if (text.split(before).length !== 2) throw new Error(`not once: ${before}`)
    return text.replace(before, after)
  }

/** What is left out or done in another order → what is found, all of it. */
const broken: readonly (readonly [string, Change, readonly string[]])[] = [
  ['(c)(9) the crew is not told of the work', without('tell-of-work'), ['need-unmet']],
  ['(d)(2) the conveyor is not shut down', without('stop'), ['need-unmet', 'zone-unsafe']],
  ['(d)(3) the isolator is not turned off', without('off'), ['lockout-order', 'need-unmet', 'zone-unsafe']],
  ['(d)(4) nobody puts a lock on', without('lock'), ['lockout-order', 'lock-unpaired']],
  [
    '(d)(4) only one of the two puts a lock on',
    replaced('2. Fit your own lock, each of you. {#lock}', '2. **Fitter:** Fit your own lock. {#lock}'),
    ['lock-unpaired'],
  ],
  ['(d)(5) the stored pressure is not let off', without('bleed'), ['need-unmet', 'zone-unsafe']],
  ['(d)(5) the stored pressure is let off and nobody reads the gauge', without('read'), ['proof-missing']],
  ['(d)(6) the isolation is not verified', without('proved'), ['proof-missing']],
  [
    '(d)(6) the supervisor signs for something else',
    replaced(
      'proves: { power: isolated, belt: standing }\n   ```\n\n## Change',
      'proves: { belt: standing }\n   ```\n\n## Change',
    ),
    ['proof-missing'],
  ],
  ['(d)(4) before (3): locked before it is off', swapped('off', 'lock'), ['lockout-order']],
  [
    '(d)(6) before (4): verified before it is locked',
    (text) => stepsSwapped(without('try', 'read')(text), 'lock', 'proved'),
    ['lockout-order', 'proof-missing'],
  ],
  ['(d)(6) before (5): read before it is bled', swapped('bleed', 'read'), ['need-unmet', 'proof-missing']],
  [
    '(e)(1) the guard stays off',
    replaced('refits: [tail-guard]', 'takes: 5 min'),
    ['guard-off-at-start', 'not-put-back'],
  ],
  [
    '(e)(1) the guard goes on after the jog',
    (text) =>
      replaced(
        '{#off-again}\n   ```yaml\n',
        '{#off-again}\n   ```yaml\n   refits: [tail-guard]\n',
      )(replaced('refits: [tail-guard]', 'takes: 5 min')(text)),
    ['guard-off-at-start'],
  ],
  [
    '(e)(2) nobody counts people out before the start',
    without('count-out-again'),
    ['lockout-order', 'zone-not-cleared'],
  ],
  ['(e)(2) the crew is not told of the start', without('tell-of-start'), ['need-unmet', 'not-put-back']],
  ['(e)(2) the crew is told after the start', swapped('tell-of-start', 'power-on'), ['need-unmet']],
  ['(e)(3) nobody takes the locks off', without('locks-off'), ['lock-unpaired', 'lockout-order']],
  [
    '(e)(3) one lock stays on',
    replaced(
      '3. **Fitter and second:** Take your own locks off. {#locks-off}',
      '3. **Fitter:** Take your own lock off. {#locks-off}',
    ),
    ['lock-unpaired', 'lockout-order'],
  ],
  [
    '(f)(1) nobody counts people out before the jog',
    without('count-out'),
    ['lockout-order', 'proof-stale', 'zone-not-cleared'],
  ],
  ['(f)(1) the locks stay on for the jog', without('locks-off-test'), ['lock-unpaired', 'lockout-order']],
  [
    '(f)(1) it is not turned off again after the jog',
    without('off-again'),
    ['lockout-order', 'need-unmet', 'zone-unsafe'],
  ],
  ['(f)(1) the locks do not go on again after the jog', without('lock-again'), ['lock-unpaired', 'lockout-order']],
  ['(f)(1) it is not verified again after the jog', without('proved-again'), ['proof-stale']],
  ['(f)(1) locked again before it is off', swapped('off-again', 'lock-again'), ['lockout-order']],
]

describe('the order of lockout, 29 CFR 1910.147(d) to (f)', () => {
  it('finds nothing in the whole order', () => {
    expect(flowFaultNames(whole, files)).toEqual([])
    expect(otherFindings(whole, files)).toEqual([])
  })

  it.each(broken)('%s', (_, change, expected) => {
    const text = change(whole)
    expect(text).not.toBe(whole)
    expect(flowFaultNames(text, files)).toEqual([...expected].sort())
    expect(naiveFaultNames(text, files)).toEqual([...expected].sort())
  })
})
