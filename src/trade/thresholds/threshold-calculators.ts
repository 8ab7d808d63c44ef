import { multiply, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { betweenUnits } from '../between-units.ts'
import type { Calculator } from '../calculator.ts'
import { thresholdCaution } from '../cautions.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import {
  dustVerdict,
  flammableVerdict,
  isConfinedSpace,
  oxygenVerdict,
  toxicGases,
  toxicVerdict,
} from './confined-space.ts'
import { fallProtectionNeeded, fallRule, guardrailHolds, kindsOfWork } from './fall.ts'
import { fireWatchAfter, fireWatchLongEnough, fireWatchNeeded, hotWorkRoles } from './hot-work.ts'
import { type RuleSetName, ruleSetNames, type ThresholdRule } from './rule.ts'

/** Calculators of thresholds. Where no rule set is chosen the strictest rule holds, and the rules that say so are named. */

const yesNo = ['yes', 'no'] as const
const ruleSet = { what: 'rule set of the site', kind: 'word', choices: ruleSetNames, optional: true } as const

const told = (rules: readonly ThresholdRule[]): readonly string[] => [
  ...new Set(rules.map(({ says, source, basis }) => `${says}: ${source}${basis === 'memory' ? ' (from memory)' : ''}`)),
]

const fallProtection = makeCalculator({
  name: 'fall-protection',
  what: 'Whether a height needs protection against falls, and whether a top rail is right.',
  formula: 'height at or above the threshold of the kind of work',
  validity: `Kinds: ${kindsOfWork.join(', ')}. Without a kind that of the rule set, else the stricter of general industry and construction.`,
  source: '29 CFR 1910.28 and 29 CFR 1926.501, as quoted; others from memory, each named with the result',
  inputs: {
    height: { what: 'height of a possible fall', kind: 'length', unit: 'm', sign: 'not-negative' },
    work: { what: 'kind of work', kind: 'word', choices: kindsOfWork, optional: true },
    'over-dangerous-equipment': {
      what: 'whether dangerous equipment is below',
      kind: 'word',
      choices: yesNo,
      optional: true,
    },
    'rule-set': ruleSet,
    'top-rail': { what: 'height of the top rail', kind: 'length', unit: 'mm', optional: true },
  },
  work: ({ height, work, 'over-dangerous-equipment': dangerous, 'top-rail': rail, 'rule-set': set }) => {
    const verdict = fallProtectionNeeded(height, 'm', {
      ...(work ? { kind: work } : {}),
      ...(set ? { set: set as RuleSetName } : {}),
      isOverDangerous: dangerous === 'yes',
    })
    if (!verdict.ok) return verdict
    const rule = work === null ? null : fallRule(work)
    if (rule && !rule.ok) return rule
    const holds = rail === null ? null : guardrailHolds(rail, 'm')
    if (holds && !holds.ok) return holds
    return {
      ok: true,
      figures: [
        {
          name: 'protection',
          what: 'Protection',
          word: verdict.value.needed ? 'needed' : 'not asked for by this rule',
        },
        ...(rule
          ? [
              {
                name: 'threshold',
                what: 'Threshold',
                kind: 'length',
                units: ['m', 'ft'],
                value: betweenUnits(rule.value.value, rule.value.unit, 'm'),
              } as const,
            ]
          : []),
        ...(holds ? [{ name: 'top-rail', what: 'Top rail', word: holds.value ? 'right' : 'too low or too high' }] : []),
      ],
      notes: [...verdict.value.by, thresholdCaution],
    }
  },
})

const fireWatch = makeCalculator({
  name: 'fire-watch',
  what: 'Whether hot work needs a fire watch, and how long it goes on after the work.',
  formula:
    'things that burn nearer than 35 ft, or farther but easily lit, or behind an opening within 35 ft, or lit through metal',
  validity:
    'What is not given does not count. Time after the work: the longest of all rules unless a rule set is chosen.',
  source:
    'WAC 296-307-49503 (29 CFR 1910.252(a)(2)(iii)); International Fire Code 2018, ch. 35; NFPA 51B, 2019, from memory',
  inputs: {
    distance: {
      what: 'distance of the nearest things that burn',
      kind: 'length',
      unit: 'm',
      sign: 'not-negative',
      optional: true,
    },
    'easily-lit': { what: 'whether sparks light them easily', kind: 'word', choices: yesNo, optional: true },
    'opening-distance': {
      what: 'distance of an opening with things that burn behind it',
      kind: 'length',
      unit: 'm',
      sign: 'not-negative',
      optional: true,
    },
    'lit-through-metal': {
      what: 'whether something behind a metal wall may be lit',
      kind: 'word',
      choices: yesNo,
      optional: true,
    },
    after: {
      what: 'how long the watch went on after the work',
      kind: 'time',
      unit: 'min',
      sign: 'not-negative',
      optional: true,
    },
    'rule-set': ruleSet,
  },
  work: (given) => {
    const watch = fireWatchNeeded({
      unit: 'm',
      ...(given.distance ? { distance: given.distance } : {}),
      ...(given['opening-distance'] ? { openingDistance: given['opening-distance'] } : {}),
      isEasilyIgnited: given['easily-lit'] === 'yes',
      isLitThroughMetal: given['lit-through-metal'] === 'yes',
    })
    if (!watch.ok) return watch
    const rule = fireWatchAfter(given['rule-set'])
    if (!rule.ok) return rule
    const long = given.after === null ? null : fireWatchLongEnough(given.after, 's', given['rule-set'])
    if (long && !long.ok) return long
    return {
      ok: true,
      figures: [
        { name: 'fire-watch', what: 'Fire watch', word: watch.value ? 'needed' : 'not asked for by this rule' },
        {
          name: 'minutes-after',
          what: 'After the work at least',
          kind: 'time',
          units: ['min'],
          value: betweenUnits(rule.value.value, rule.value.unit, 's'),
        },
        ...(long ? [{ name: 'time', what: 'The watch', word: long.value ? 'was long enough' : 'goes on' }] : []),
      ],
      notes: [...told([rule.value]), `Roles: ${hotWorkRoles.join(', ')}.`, thresholdCaution],
    }
  },
})

const spaceAir = makeCalculator({
  name: 'confined-space-air',
  what: 'Whether a space is a confined space, and whether its air is hazardous.',
  formula:
    'oxygen below 19.5 % or above 23.5 %; flammable gas above 10 % of its lower limit; dust that hides what is 5 ft away; toxics above their limit',
  validity:
    'Readings of a tested instrument, at every height of the space, before and during entry. Not a permit to enter.',
  source: 'WAC 296-155-20301, values of 29 CFR 1910.146(b); toxics from memory, each named with the result',
  inputs: {
    oxygen: { what: 'oxygen', kind: 'ratio', unit: '%', sign: 'not-negative', optional: true },
    'flammable-gas': {
      what: 'flammable gas in % of its lower limit',
      kind: 'ratio',
      unit: '%',
      sign: 'not-negative',
      optional: true,
    },
    vision: {
      what: 'how far one sees through the dust',
      kind: 'length',
      unit: 'm',
      sign: 'not-negative',
      optional: true,
    },
    gas: { what: 'toxic gas', kind: 'word', choices: toxicGases, optional: true },
    reading: { what: 'reading of the toxic gas', kind: 'ratio', unit: 'ppm', sign: 'not-negative', optional: true },
    'can-enter': { what: 'whether a person gets in bodily', kind: 'word', choices: yesNo, optional: true },
    restricted: { what: 'whether the way in or out is restricted', kind: 'word', choices: yesNo, optional: true },
    'continuous-stay': { what: 'whether it is made for staying in', kind: 'word', choices: yesNo, optional: true },
    'rule-set': ruleSet,
  },
  work: (given) => {
    const set = given['rule-set']
    const hundred = rational(100)
    if ((given.gas === null) !== (given.reading === null))
      return refuse(given.gas === null ? 'gas' : 'reading', 'Gas and reading are both needed.', 'Give both or none.')
    const verdicts = [
      given.oxygen === null ? null : oxygenVerdict(multiply(given.oxygen, hundred), set),
      given['flammable-gas'] === null ? null : flammableVerdict(multiply(given['flammable-gas'], hundred), set),
      given.vision === null ? null : dustVerdict(given.vision, 'm'),
      given.gas === null || given.reading === null
        ? null
        : toxicVerdict(given.gas, multiply(given.reading, rational(1_000_000)), set),
    ].filter((each) => each !== null)
    const by: ThresholdRule[] = []
    for (const verdict of verdicts) {
      if (!verdict.ok) return verdict
      by.push(...verdict.value.by)
    }
    const space = [given['can-enter'], given.restricted, given['continuous-stay']]
    const figures: Figure[] = []
    if (verdicts.length > 0)
      figures.push({
        name: 'air',
        what: 'The air',
        word: by.length > 0 ? 'is hazardous: nobody enters' : 'is within these limits',
      })
    if (space.every((answer) => answer !== null))
      figures.push({
        name: 'space',
        what: 'The space',
        word: isConfinedSpace({
          canEnter: space[0] === 'yes',
          isRestricted: space[1] === 'yes',
          isForContinuousStay: space[2] === 'yes',
        })
          ? 'is a confined space'
          : 'is not a confined space by this rule',
      })
    if (figures.length === 0)
      return refuse('oxygen', 'Nothing to judge is given.', 'Give a reading, or the three answers about the space.')
    return { ok: true, figures, notes: [...told(by), thresholdCaution] }
  },
})

export const thresholdCalculators: readonly Calculator[] = [fallProtection, fireWatch, spaceAir]
