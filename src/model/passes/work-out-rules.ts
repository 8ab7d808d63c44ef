import { exactNumberText } from '../../quantities/number-text.ts'
import { compare, multiply, one, rational } from '../../quantities/rational.ts'
import { thresholdCaution } from '../../trade/cautions.ts'
import { ruleSets, type ThresholdRule } from '../../trade/thresholds/rule.ts'
import type { Step } from '../procedure.ts'
import {
  type AirStudy,
  type HeightStudy,
  type NoiseStudy,
  percentOfDose,
  rulesOf,
} from '../published-rules/rules-study.ts'
import type { Working } from '../working.ts'
import type { AroundFigures } from './around-figures.ts'
import { shown, shownNumber, wordFigure, workedFigure } from './worked-figures.ts'

type Told = Omit<Working, 'key' | 'of' | 'at'>

/** What the published rules of the site ask at the heights, noise and air that a step tells. */
export function workOutRules(step: Step, { readings, ruleSet }: AroundFigures): readonly Working[] {
  const study = rulesOf(step, readings, ruleSet)
  if (study === null) return []
  const told = (of: string, working: Told): Working => ({ key: 'rules', of, ...working, at: study.at })
  return [
    ...(study.height ? [told('height', ofHeight(study.height))] : []),
    ...(study.noise ? [told('noise', ofNoise(study.noise))] : []),
    ...(study.air.some(({ rules }) => rules.length > 0) ? [told('air', ofAir(study.air, ruleSet))] : []),
  ]
}

function ofHeight({ drop, isOverMachinery, isNeeded, rules, protection }: HeightStudy): Told {
  const why = isOverMachinery ? 'over machinery at any height' : rules.map(thresholdText).join('; ')
  const how = isNeeded && protection !== null ? `: ${protection}` : ''
  return {
    says: `A fall of ${drop}: protection is ${isNeeded ? `needed${how}` : 'not asked for by this rule'}.`,
    figures: [wordFigure('protection', isNeeded ? 'needed' : 'not asked for by this rule')],
    formula: 'height at or above the threshold of the kind of work; over machinery always',
    lines: [`${drop}: ${why}`, ...rules.map(ruleText)],
    source: isOverMachinery ? '29 CFR 1910.28(b)(6)' : sourcesOf(rules),
    caution: thresholdCaution,
  }
}

function ofNoise({ level, time, rule, all, dose, hours }: NoiseStudy): Told {
  const part = `${shownNumber(percentOfDose(dose), 3, 'up')} %`
  const allowed = (value: typeof hours) => shown(multiply(value, rational(3600)), 'h', 3, 'down')
  const isOver = compare(dose, one) > 0
  return {
    says: `${level} may last ${allowed(hours)} a day; ${time} are ${part} of it${isOver ? ': too much without hearing protection' : ''}.`,
    figures: [
      workedFigure({ name: 'dose', kind: 'ratio', unit: '%', value: dose, digits: 4, rounding: 'up', isRounded: true }),
      workedFigure({
        name: 'allowed',
        kind: 'time',
        unit: 'h',
        value: multiply(hours, rational(3600)),
        rounding: 'down',
        isRounded: true,
      }),
      wordFigure('rule', rule.set),
    ],
    formula: 'T = 8 h/2^((L − Lc)/q); dose = time/T',
    lines: all.map(
      (each) =>
        `${ruleSets[each.rule.set].authority}: ${exactNumberText(each.rule.level)} dB(A) for 8 h, half as long for each ${exactNumberText(each.rule.exchange)} dB more: ${allowed(each.hours)}, dose ${shownNumber(percentOfDose(each.dose), 3, 'up')} %${each.rule === rule ? ' (holds here)' : ''}`,
    ),
    source: rule.source,
    caution: `The dose of a day is the sum of all its noise, not of this step alone. ${thresholdCaution}`,
  }
}

function ofAir(air: readonly AirStudy[], ruleSet: string | null): Told {
  const rules = air.flatMap((each) => each.rules)
  return {
    says: `Nobody goes in unless the air is right: ${air.map(airText).join('; ')}.`,
    figures: air.map(({ gas, name, broken }) => wordFigure(gas, broken.length === 0 ? name : `${name} allows more`)),
    formula: 'the limit of the reading is no wider than the rule',
    lines: [
      ruleSet === null
        ? 'No rule set is chosen in witnessmark.yaml: the strictest of all holds.'
        : `Rule set of this site: ${ruleSet}. What it does not say is taken from the others.`,
      ...rules.map(ruleText),
    ],
    source: sourcesOf(rules),
    caution: `Readings of a tested instrument, at every height of the space, before and during entry. ${thresholdCaution}`,
  }
}

function airText({ gas, name, reading, rules }: AirStudy): string {
  const limit = reading?.limit?.text ?? reading?.limit?.typed
  const asked = rules.map(({ side, value, unit }) => `${sideText(side)} ${exactNumberText(value)} ${unit}`)
  return `${gas.replaceAll('-', ' ')} as ${limit ?? `${name} reads`} (no entry ${[...new Set(asked)].join(', ')})`
}

function sideText(side: ThresholdRule['side']): string {
  return { from: 'from', above: 'above', below: 'below', 'up-to': 'up to' }[side]
}

function thresholdText({ side, value, unit }: ThresholdRule): string {
  return `protection ${sideText(side)} ${exactNumberText(value)} ${unit}`
}

/** `us-osha-construction (OSHA, United States, construction): from 6 ft, fall protection is needed; 29 CFR 1926.501(b)(1)`. */
function ruleText({ set, side, value, unit, says, source, basis }: ThresholdRule): string {
  const { where } = ruleSets[set]
  return `${set} (${where}): ${sideText(side)} ${exactNumberText(value)} ${unit}, ${says}; ${source}${basis === 'memory' ? ', from memory' : ''}`
}

function sourcesOf(rules: readonly ThresholdRule[]): string {
  return [...new Set(rules.map(({ source, basis }) => `${source}${basis === 'memory' ? ' (from memory)' : ''}`))].join(
    '; ',
  )
}
