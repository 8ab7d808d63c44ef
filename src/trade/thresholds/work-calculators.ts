import { divide, multiply, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import type { Calculator } from '../calculator.ts'
import { thresholdCaution } from '../cautions.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { sidePullAllowed, wrapsAreEnough } from './hoists.ts'
import { baseIsBlocked, jackHolds, jackInspection, jackIsFit, jackMayBeUsed, mayWorkUnder } from './jacks.ts'
import { type LockoutOrderName, lockoutOrder, lockoutOrders } from './lockout.ts'
import { allowedHours, type NoiseRuleName, noiseDose, noiseRuleOf, noiseRules } from './noise.ts'

import { type RuleSetName, ruleSetNames } from './rule.ts'

/** Calculators of noise, lockout, jacks and hoists. */

const noise = makeCalculator({
  name: 'noise-dose',
  what: 'How long a noise may last, and the dose of a day.',
  formula: 'T = 8/2^((L − Lc)/q); D = 100 Σ C/T; TWA = Lc + q log2(D/100)',
  validity:
    '0 to 140 dB(A), A-weighted, slow. NIOSH unless a rule is chosen: the strictest. OSHA allows no steady noise above 115 dB(A).',
  source: Object.values(noiseRules)
    .map(({ source }) => source)
    .join('; '),
  inputs: {
    levels: { what: 'levels of the day', kind: 'sound-level', unit: 'dB(A)', symbol: 'L', list: true },
    hours: {
      what: 'how long each lasted',
      kind: 'time',
      unit: 'h',
      symbol: 'C',
      list: true,
      sign: 'not-negative',
      optional: true,
    },
    rule: {
      what: 'the rule, before that of the rule set',
      kind: 'word',
      choices: Object.keys(noiseRules),
      optional: true,
    },
    'rule-set': { what: 'rule set of the site', kind: 'word', choices: ruleSetNames, optional: true },
  },
  work: ({ levels, hours, rule, 'rule-set': set }) => {
    const name = (rule as NoiseRuleName | null) ?? noiseRuleOf(set as RuleSetName | null)
    const figures: Figure[] = []
    for (const [index, level] of levels.entries()) {
      const allowed = allowedHours(level, name)
      if (!allowed.ok) return allowed
      figures.push({
        name: `allowed-${index + 1}`,
        what: `Allowed at level ${index + 1}`,
        kind: 'time',
        units: ['h'],
        value: multiply(allowed.value, rational(3600)),
        isRounded: true,
        rounding: 'down',
        digits: 3,
      })
    }
    if (hours !== null) {
      if (hours.length !== levels.length)
        return refuse(
          'hours',
          `${levels.length} levels and ${hours.length} times do not fit together.`,
          'Type a time for each level.',
        )
      const day = noiseDose(
        levels.map((level, index) => ({ level, hours: divide(hours[index] ?? rational(0), rational(3600)) })),
        name,
      )
      if (!day.ok) return day
      figures.push({
        name: 'dose',
        what: 'Dose',
        kind: 'ratio',
        units: ['%'],
        value: divide(day.value.dose, rational(100)),
        isRounded: true,
        rounding: 'up',
        digits: 4,
      })
      if (day.value.steadyLevel)
        figures.push({
          name: 'steady-level',
          what: 'Steady level of 8 h',
          kind: 'sound-level',
          units: ['dB(A)'],
          value: day.value.steadyLevel,
          isRounded: true,
          digits: 4,
        })
    }
    return { ok: true, figures, notes: [noiseRules[name].source, thresholdCaution] }
  },
})

const lockout = makeCalculator({
  name: 'lockout-order',
  what: 'Whether steps of a lockout stand in the right order with none missing.',
  formula: 'preparation, shutdown, isolation, device application, stored energy, verification',
  validity:
    'Steps are known by their words; others are passed over. Where energy can come back, verification goes on until the work is done.',
  source: Object.values(lockoutOrders)
    .map(({ source }) => source)
    .join('; '),
  inputs: {
    steps: { what: 'the steps in their order', kind: 'text', list: true },
    order: {
      what: 'the order to hold them against',
      kind: 'word',
      choices: Object.keys(lockoutOrders),
      optional: true,
    },
  },
  work: ({ steps, order }) => {
    const verdict = lockoutOrder(steps, (order as LockoutOrderName | null) ?? '29 CFR 1910.147(d)')
    if (!verdict.ok) return verdict
    const { isValid, missing } = verdict.value
    return {
      ok: true,
      figures: [
        { name: 'verdict', what: 'The order', word: isValid ? 'is right' : 'is wrong' },
        ...(missing.length > 0 ? [{ name: 'missing', what: 'Missing', word: missing.join(', ') }] : []),
      ],
      notes: [thresholdCaution],
    }
  },
})

const yesNo = ['yes', 'no'] as const

const jackCheck = makeCalculator({
  name: 'jack-check',
  what: 'Whether a jack may be used, and whether anyone may go under the load.',
  formula:
    'load ≤ rating; marked and with a stop; no defect; firm footing or a blocked base; secured at once after raising',
  validity: 'What is not answered is not judged. Nobody goes under a load that only a jack, hoist or crane holds.',
  source: '29 CFR 1910.244(a), edition of 7-1-11, read in a full-text copy',
  inputs: {
    rating: { what: 'rating marked on the jack', kind: 'mass', unit: 't' },
    load: { what: 'what it lifts', kind: 'mass', unit: 't' },
    marked: { what: 'whether the rating can be read on it', kind: 'word', choices: yesNo },
    stop: { what: 'whether a stop ends its travel', kind: 'word', choices: yesNo },
    defect: { what: 'whether anything is wrong with it', kind: 'word', choices: yesNo },
    'firm-footing': { what: 'whether the footing is firm', kind: 'word', choices: yesNo, optional: true },
    supports: { what: 'what holds the load after raising', kind: 'text', list: true, optional: true },
    use: { what: 'how it is used: regular, loaned, shock', kind: 'text', optional: true },
  },
  work: (given) => {
    const holds = jackHolds(given.rating, given.load)
    if (!holds.ok) return holds
    const fit = jackIsFit({ isMarked: given.marked === 'yes', hasStop: given.stop === 'yes' })
    const mayBeUsed = holds.value && fit && jackMayBeUsed(given.defect === 'yes')
    const under = given.supports === null ? null : mayWorkUnder(given.supports)
    if (under && !under.ok) return under
    const inspection = given.use === null ? null : jackInspection(given.use)
    if (inspection && !inspection.ok) return inspection
    const footing = given['firm-footing']
    return {
      ok: true,
      figures: [
        { name: 'jack', what: 'The jack', word: mayBeUsed ? 'may be used' : 'may not be used' },
        ...(footing === null
          ? []
          : [
              {
                name: 'base',
                what: 'The base',
                word: baseIsBlocked(footing === 'yes') ? 'is blocked first' : 'stands as it is',
              },
            ]),
        ...(under
          ? [
              {
                name: 'under',
                what: 'Going under the load',
                word: under.value ? 'allowed by this rule' : 'not allowed',
              },
            ]
          : []),
        ...(inspection ? [{ name: 'inspection', what: 'Inspected', word: inspection.value }] : []),
      ],
      notes: [
        'After raising, the load is cribbed, blocked or secured at once, before anything else.',
        thresholdCaution,
      ],
    }
  },
})

const hoistCheck = makeCalculator({
  name: 'hoist-check',
  what: 'Side pull and wraps of rope on the drum of a crane or hoist.',
  formula: 'no side pull unless authorised; two full wraps or more',
  validity: 'Authorised means by a qualified person after a look at stability and stress.',
  source: 'WAC 296-24-23527, the same requirements as 29 CFR 1910.179(n)',
  inputs: {
    'side-pull': { what: 'whether the rope pulls sideways', kind: 'word', choices: yesNo },
    authorised: { what: 'whether that was authorised', kind: 'word', choices: yesNo },
    wraps: { what: 'wraps on the drum at the lowest point', kind: 'number', sign: 'not-negative' },
  },
  work: (given) => {
    const wraps = wrapsAreEnough(given.wraps)
    if (!wraps.ok) return wraps
    const side = sidePullAllowed(given['side-pull'] === 'yes', given.authorised === 'yes')
    return {
      ok: true,
      figures: [
        { name: 'side-pull', what: 'The side pull', word: side ? 'may be' : 'may not be' },
        { name: 'wraps', what: 'The wraps', word: wraps.value ? 'are enough' : 'are too few' },
      ],
      notes: [thresholdCaution],
    }
  },
})

export const workCalculators: readonly Calculator[] = [noise, lockout, jackCheck, hoistCheck]
