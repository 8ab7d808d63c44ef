import { convertValue } from '../../quantities/convert.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, fromExactText, multiply, rational } from '../../quantities/rational.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import { type FallPlace, fallProtectionNeeded, fallRulesFor } from '../../trade/thresholds/fall.ts'
import { allowedHours, type NoiseRule, noiseRuleOf, noiseRules } from '../../trade/thresholds/noise.ts'
import { type RuleSetName, ruleSetNames, rulesFor, type ThresholdRule } from '../../trade/thresholds/rule.ts'
import { thresholdRules } from '../../trade/thresholds/rules.ts'
import { amountOf, type LoadBlock, textOf } from '../loads/load-data.ts'
import type { Step } from '../procedure.ts'
import type { Reading } from '../readings.ts'

/** What a step says about heights, noise and air, held against the published rules of the site. */
export interface RulesStudy {
  readonly at: Place
  readonly height: HeightStudy | null
  readonly noise: NoiseStudy | null
  readonly air: readonly AirStudy[]
}

export interface HeightStudy {
  /** As typed. */
  readonly drop: string
  readonly isOverMachinery: boolean
  readonly protection: string | null
  readonly isNeeded: boolean
  /** The thresholds that hold here. */
  readonly rules: readonly ThresholdRule[]
}

export interface NoiseStudy {
  readonly level: string
  readonly time: string
  readonly protection: string | null
  /** The rule that holds, and all that are known beside it. */
  readonly rule: NoiseRule
  readonly all: readonly { readonly rule: NoiseRule; readonly hours: Rational; readonly dose: Rational }[]
  /** Part of what a day may bring, by the rule that holds. */
  readonly dose: Rational
  readonly hours: Rational
}

export interface AirStudy {
  /** `oxygen`, `flammable-gas`, `carbon-monoxide`, `hydrogen-sulfide`. */
  readonly gas: string
  /** The name of its reading. */
  readonly name: string
  readonly reading: Reading | null
  readonly rules: readonly ThresholdRule[]
  /** Rules that the limit of the reading lets somebody break. */
  readonly broken: readonly ThresholdRule[]
}

/** `chosen` is the rule set of the site; null for the strictest of all. Null where the step says nothing. */
export function rulesOf(step: Step, readings: readonly Reading[], chosen: string | null): RulesStudy | null {
  const entry = step.entries.find(({ key }) => key === 'rules')
  if (entry === undefined || !isFields(entry.data)) return null
  const block = (name: string): LoadBlock | null => {
    const fields = (entry.data as Fields)[name]
    return isFields(fields) ? { name, at: entry.at, fields } : null
  }
  const set = ruleSetNames.find((name) => name === chosen) ?? null
  const [height, noise, air] = [block('height'), block('noise'), block('air')]
  return {
    at: entry.at,
    height: height && studyHeight(height, set),
    noise: noise && studyNoise(noise, set),
    air: air === null ? [] : Object.keys(air.fields).flatMap((gas) => studyAir(air, gas, readings, chosen) ?? []),
  }
}

function studyHeight(block: LoadBlock, set: RuleSetName | null): HeightStudy | null {
  const drop = amountOf(block, 'drop', 'length')
  if (drop === null) return null
  const work = textOf(block, 'work')
  const isOverMachinery = textOf(block, 'over') === 'machinery'
  const place: FallPlace = {
    ...(work === null ? {} : { kind: work }),
    ...(set === null ? {} : { set }),
    isOverDangerous: isOverMachinery,
  }
  const verdict = fallProtectionNeeded(drop, 'm', place)
  const rules = fallRulesFor(place)
  if (!verdict.ok || !rules.ok) return null
  return {
    drop: textOf(block, 'drop') ?? '',
    isOverMachinery,
    protection: textOf(block, 'protection'),
    isNeeded: verdict.value.needed,
    rules: rules.value,
  }
}

function studyNoise(block: LoadBlock, set: RuleSetName | null): NoiseStudy | null {
  const level = amountOf(block, 'level', 'sound-level')
  const seconds = amountOf(block, 'for', 'time')
  if (level === null || seconds === null || seconds.numerator < 0n) return null
  const all = Object.values(noiseRules).flatMap((rule) => {
    const hours = allowedHours(level, rule.name)
    return hours.ok ? [{ rule, hours: hours.value, dose: divide(divide(seconds, rational(3600)), hours.value) }] : []
  })
  const own = all.find(({ rule }) => rule.name === noiseRuleOf(set))
  if (!own) return null
  return {
    level: textOf(block, 'level') ?? '',
    time: textOf(block, 'for') ?? '',
    protection: textOf(block, 'protection'),
    rule: own.rule,
    all,
    dose: own.dose,
    hours: own.hours,
  }
}

/** The topics of the rules that a reading of the air is held against. */
const topicsOfGas: Readonly<Record<string, readonly string[]>> = {
  oxygen: ['oxygen-low', 'oxygen-high'],
  'flammable-gas': ['flammable-gas'],
  'carbon-monoxide': ['toxic/carbon monoxide'],
  'hydrogen-sulfide': ['toxic/hydrogen sulfide'],
}

function studyAir(block: LoadBlock, gas: string, readings: readonly Reading[], chosen: string | null): AirStudy | null {
  const name = textOf(block, gas)
  if (name === null) return null
  const rules = (topicsOfGas[gas] ?? []).flatMap((topic) => {
    const found = rulesFor(thresholdRules, topic, chosen)
    return found.ok ? found.value : []
  })
  const own = readings.filter((reading) => reading.name === name)
  const reading = own.find(({ limit }) => limit !== null) ?? own[0] ?? null
  return { gas, name, reading, rules, broken: brokenOf(rules, reading, chosen) }
}

/**
 * What is held against a limit. Where the site chose nobody's rules, a number that is only from memory counts only where all rules of its topic
 * agree that the limit is too wide.
 */
function brokenOf(
  rules: readonly ThresholdRule[],
  reading: Reading | null,
  chosen: string | null,
): readonly ThresholdRule[] {
  const broken = rules.filter((rule) => isBroken(rule, reading))
  if (chosen !== null) return broken
  return broken.filter(
    ({ basis, topic }) =>
      basis === 'read' || rules.filter((rule) => rule.topic === topic).every((rule) => broken.includes(rule)),
  )
}

/** Whether a reading in limit could be on the side of a rule where nobody may be. Without a limit it could. */
function isBroken(rule: ThresholdRule, reading: Reading | null): boolean {
  const limit = reading?.limit ?? null
  const isLow = rule.side === 'below' || rule.side === 'up-to'
  const bound = isLow ? limit?.lower : limit?.upper
  const value = bound ? fromExactText(bound.exact) : null
  const inUnit = value && limit ? convertValue(value, limit.unit, rule.unit) : null
  if (!bound || !inUnit?.ok) return true
  const side = compare(inUnit.value, rule.value)
  if (isLow) return side < 0 || (side === 0 && rule.side === 'up-to' && bound.inclusive)
  return side > 0 || (side === 0 && rule.side === 'from' && bound.inclusive)
}

/** 2.5 as 250. */
export function percentOfDose(dose: Rational): Rational {
  return multiply(dose, rational(100))
}

type Fields = { readonly [key: string]: PlainValue }

function isFields(value: PlainValue | undefined): value is Fields {
  return typeof value === 'object' && !Array.isArray(value)
}
