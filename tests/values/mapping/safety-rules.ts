import {
  dustVerdict,
  flammableVerdict,
  isConfinedSpace,
  oxygenVerdict,
} from '../../../src/trade/thresholds/confined-space.ts'
import { fallProtectionNeeded, fallRule, guardrailHolds } from '../../../src/trade/thresholds/fall.ts'
import {
  combustiblesRadius,
  fireWatchAfter,
  fireWatchLongEnough,
  fireWatchNeeded,
  rolesWithin,
} from '../../../src/trade/thresholds/hot-work.ts'
import {
  baseIsBlocked,
  jackHolds,
  jackInspection,
  jackIsFit,
  jackMayBeUsed,
  mayGoOnAfterRaising,
  mayWorkUnder,
} from '../../../src/trade/thresholds/jacks.ts'
import { lockoutOrder, verificationGoesOn } from '../../../src/trade/thresholds/lockout.ts'
import { allowedHours, type NoiseRuleName, noiseDose } from '../../../src/trade/thresholds/noise.ts'
import type { ThresholdRule } from '../../../src/trade/thresholds/rule.ts'
import type { CaseMapping } from '../mapping.ts'
import { figure, type Inputs, type Item, numbersOf, perItem, solved, unitOf, wordsOf } from './reading.ts'

/** The cases are of this rule set where they do not name another. */
const set = 'us-osha-general-industry'

const limit = ({ value, unit }: ThresholdRule) => figure(value, unit)

const hours = (item: Item, rule: NoiseRuleName) => figure(solved(allowedHours(item.number('L'), rule)), 'h')

function doseOf(inputs: Inputs) {
  const times = numbersOf(inputs, 'C')
  return solved(
    noiseDose(
      numbersOf(inputs, 'L').flatMap((level, index) => {
        const spent = times[index] ?? times.at(-1)
        return spent ? [{ level, hours: spent }] : []
      }),
      'osha',
    ),
  )
}

export const safetyRules: readonly CaseMapping[] = [
  {
    inputs: ['distance', 'easily_ignited', 'opening_distance', 'conduction_path'],
    expected: ['watch'],
    work: (inputs) => ({
      watch: perItem(inputs, (item) => {
        const name = item.has('distance') ? 'distance' : 'opening_distance'
        const place = {
          unit: unitOf(inputs, name),
          ...(item.has('distance') ? { distance: item.number('distance') } : {}),
          ...(item.has('opening_distance') ? { openingDistance: item.number('opening_distance') } : {}),
          isEasilyIgnited: item.isTrue('easily_ignited'),
          isLitThroughMetal: item.isTrue('conduction_path'),
        }
        return solved(fireWatchNeeded(place))
      }),
    }),
  },
  {
    inputs: ['after'],
    expected: ['ok'],
    work: (inputs) => ({
      ok: perItem(inputs, (item) => solved(fireWatchLongEnough(item.number('after'), unitOf(inputs, 'after'), set))),
    }),
  },
  {
    inputs: ['rule'],
    expected: ['minutes'],
    work: (inputs) => ({ minutes: perItem(inputs, (item) => limit(solved(fireWatchAfter(item.word('rule'))))) }),
  },
  {
    // What is printed is what may be wrong.
    inputs: ['printed'],
    expected: ['value'],
    work: () => ({ value: limit(solved(combustiblesRadius())) }),
  },
  {
    inputs: ['radius'],
    expected: ['roles'],
    work: (inputs) => ({ roles: numbersOf(inputs, 'radius').flatMap((radius) => solved(rolesWithin(radius))) }),
  },
  {
    inputs: ['steps'],
    expected: ['valid', 'order', 'valid_1910_147', 'valid_local'],
    work: (inputs) => {
      const national = solved(lockoutOrder(wordsOf(inputs, 'steps')))
      const local = solved(lockoutOrder(wordsOf(inputs, 'steps'), 'local: energy before locks'))
      return {
        valid: national.isValid,
        order: national.positions,
        valid_1910_147: national.isValid,
        valid_local: local.isValid,
      }
    },
  },
  {
    inputs: ['reaccumulates'],
    expected: ['continued_verification'],
    work: (inputs) => ({
      continued_verification: perItem(inputs, (item) => verificationGoesOn(item.isTrue('reaccumulates'))),
    }),
  },
  {
    inputs: ['height', 'over_dangerous'],
    expected: ['needed'],
    work: (inputs, _expected, told) => ({
      needed: perItem(inputs, (item) => {
        const kind = fallRule(told)
        const given = {
          ...(kind.ok ? { kind: told } : {}),
          isOverDangerous: item.isTrue('over_dangerous'),
        }
        return solved(fallProtectionNeeded(item.number('height'), unitOf(inputs, 'height'), given)).needed
      }),
    }),
  },
  {
    inputs: ['height'],
    expected: ['ok'],
    work: (inputs) => ({
      ok: perItem(inputs, (item) => solved(guardrailHolds(item.number('height'), unitOf(inputs, 'height')))),
    }),
  },
  {
    inputs: ['kind'],
    expected: ['threshold'],
    work: (inputs) => ({ threshold: perItem(inputs, (item) => limit(solved(fallRule(item.word('kind'))))) }),
  },
  {
    inputs: ['rating', 'load'],
    expected: ['ok'],
    work: (inputs) => {
      if (unitOf(inputs, 'rating') !== unitOf(inputs, 'load')) throw new Error('rating and load in different units')
      return { ok: perItem(inputs, (item) => solved(jackHolds(item.number('rating'), item.number('load')))) }
    },
  },
  {
    inputs: ['raised', 'secured'],
    expected: ['may_continue'],
    work: (inputs) => ({
      may_continue: perItem(inputs, (item) =>
        mayGoOnAfterRaising({ isRaised: item.isTrue('raised'), isSecured: item.isTrue('secured') }),
      ),
    }),
  },
  {
    inputs: ['firm_footing'],
    expected: ['block_base'],
    work: (inputs) => ({ block_base: perItem(inputs, (item) => baseIsBlocked(item.isTrue('firm_footing'))) }),
  },
  {
    inputs: ['use'],
    expected: ['interval'],
    work: (inputs) => ({ interval: perItem(inputs, (item) => solved(jackInspection(item.word('use')))) }),
  },
  {
    inputs: ['defect'],
    expected: ['use'],
    work: (inputs) => ({ use: perItem(inputs, (item) => jackMayBeUsed(item.isTrue('defect'))) }),
  },
  {
    inputs: ['marked', 'stop'],
    expected: ['ok'],
    work: (inputs) => ({
      ok: perItem(inputs, (item) => jackIsFit({ isMarked: item.isTrue('marked'), hasStop: item.isTrue('stop') })),
    }),
  },
  {
    // A list is either one verdict each or what holds one load together.
    inputs: ['supports'],
    expected: ['work_under'],
    work: (inputs, expected) => ({
      work_under: Array.isArray(expected.get('work_under')?.value)
        ? wordsOf(inputs, 'supports').map((support) => solved(mayWorkUnder([support])))
        : solved(mayWorkUnder(wordsOf(inputs, 'supports'))),
    }),
  },
  {
    inputs: ['O2'],
    expected: ['hazard'],
    work: (inputs) => ({
      hazard: perItem(inputs, (item) => solved(oxygenVerdict(item.number('O2'), set)).isHazardous),
    }),
  },
  {
    inputs: ['LFL_fraction'],
    expected: ['hazard'],
    work: (inputs) => ({
      hazard: perItem(inputs, (item) => solved(flammableVerdict(item.number('LFL_fraction'), set)).isHazardous),
    }),
  },
  {
    inputs: ['vision'],
    expected: ['hazard'],
    work: (inputs) => ({
      hazard: perItem(
        inputs,
        (item) => solved(dustVerdict(item.number('vision'), unitOf(inputs, 'vision'))).isHazardous,
      ),
    }),
  },
  {
    inputs: ['enter', 'restricted', 'continuous_stay'],
    expected: ['confined'],
    work: (inputs) => ({
      confined: perItem(inputs, (item) =>
        isConfinedSpace({
          canEnter: item.isTrue('enter'),
          isRestricted: item.isTrue('restricted'),
          isForContinuousStay: item.isTrue('continuous_stay'),
        }),
      ),
    }),
  },
  {
    inputs: ['L'],
    expected: ['T', 'osha', 'niosh', 'canada'],
    work: (inputs) => ({
      T: perItem(inputs, (item) => hours(item, 'osha')),
      osha: perItem(inputs, (item) => hours(item, 'osha')),
      niosh: perItem(inputs, (item) => hours(item, 'niosh')),
      canada: perItem(inputs, (item) => hours(item, 'canada')),
    }),
  },
  {
    inputs: ['L', 'C'],
    expected: ['dose', 'TWA'],
    work: (inputs) => {
      const { dose, steadyLevel } = doseOf(inputs)
      return { dose: figure(dose, '%'), TWA: steadyLevel && figure(steadyLevel, 'dBA') }
    },
  },
]
