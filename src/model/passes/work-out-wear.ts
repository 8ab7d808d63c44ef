import type { Rational } from '../../quantities/quantity-types.ts'
import { absolute, rational } from '../../quantities/rational.ts'
import { betweenUnits } from '../../trade/between-units.ts'
import { fromNumber } from '../../trade/binary.ts'
import { localFirst } from '../../trade/cautions.ts'
import type { Step } from '../procedure.ts'
import { changeIn, dateOfTime, type LogStudy } from '../wear/log-study.ts'
import { type BeltAdjustment, type ChainWear, type WearStudy, wearsOf } from '../wear/wear-study.ts'
import type { WorkedFigure, Working } from '../working.ts'
import type { AroundFigures } from './around-figures.ts'
import { shown, wordFigure, workedFigure } from './worked-figures.ts'

type Told = Omit<Working, 'key' | 'of' | 'at'>

/** How long a chain may get, how far a belt gives, and when the line through a log meets its limit. */
export function workOutWear(step: Step, { readings, tables }: AroundFigures): readonly Working[] {
  return wearsOf(step, readings, tables).flatMap((study) =>
    [
      study.chain && ofChain(study.chain, unitOf(study, study.chain.pitch)),
      study.belt && ofBelt(study.belt, unitOf(study, study.belt.span)),
      study.log && ofLog(study.log, (log, time) => dateOfTime(log, time, tables)),
    ].flatMap((told) => (told ? [{ key: 'wear' as const, of: study.name, ...told, at: study.at }] : [])),
  )
}

/** The unit of the reading where it is a length, else of what was typed. */
function unitOf({ reading }: WearStudy, typed: string): string {
  const own = reading?.limit?.unit ?? reading?.unit
  if (own === 'mm' || own === 'in') return own
  return /(?:in|″|")$/.test(typed.trim()) ? 'in' : 'mm'
}

function ofChain({ pitch, pitches, teeth, isFixed, newLength, share, wornLength }: ChainWear, unit: string): Told {
  const length = (value: Rational, rounding?: 'down') => shown(value, unit, 5, rounding)
  const percent = shown(share, '%', 3, 'down')
  const why = isFixed
    ? 'fixed centres, nothing takes up the slack'
    : teeth !== null && teeth > 66
      ? `200/${teeth} teeth`
      : 'the usual most'
  return {
    says: `New ${length(newLength)} over ${pitches} pitches, worn out at ${length(wornLength, 'down')}: ${percent} longer.`,
    figures: [
      workedFigure({ name: 'new-length', kind: 'length', unit, value: newLength, digits: 6 }),
      workedFigure({ name: 'worn-length', kind: 'length', unit, value: wornLength, digits: 6, rounding: 'down' }),
      workedFigure({ name: 'elongation-limit', kind: 'ratio', unit: '%', value: share, rounding: 'down' }),
    ],
    formula: 'new = N · p; worn = N · p · (1 + e); e = 3 %, or 200/z % where that is less; 1.5 % on fixed centres',
    lines: [
      `New: ${pitches} × ${pitch} = ${length(newLength)}`,
      `e = ${percent} (${why})`,
      `Worn: ${length(newLength)} × (1 + ${percent}) = ${length(wornLength, 'down')}`,
    ],
    source: 'Roller chain maintenance guide of a chain maker, wear limits',
    caution: `${pitches} pitches span ${pitches + 1} pins. Measure it tight, on the side that pulls. Chains that run as a pair are renewed together (common practice). The maker’s limit holds where it is stricter.`,
  }
}

function ofBelt({ span, deflection }: BeltAdjustment, unit: string): Told {
  const value = shown(deflection, unit, 3)
  return {
    says: `The belt gives by ${value} at the middle of its span of ${span}, under the maker’s force.`,
    figures: [workedFigure({ name: 'deflection', kind: 'length', unit, value: deflection, digits: 4 })],
    formula: 'deflection = span/64',
    lines: [`${span}/64 = ${value}`],
    source: 'TM 5-3895-374-24-2, belt adjustment, step B; TM 5-3820-233-12/1, table 4-3',
    caution:
      'Stop and lock the drive first. The force behind this deflection is the maker’s; a tension read on a gauge is another figure.',
  }
}

function ofLog(log: LogStudy, dateOf: (log: LogStudy, time: Rational) => string): Told | null {
  const { trend, end, unit, points, table, hasDates } = log
  if (trend === null || end === null) return null
  const limit = shown(end.limit, unit, 5)
  const when = (time: Rational, rounding?: 'down') => (hasDates ? dateOf(log, time) : shown(time, 'h', 4, rounding))
  const per = hasDates
    ? { seconds: betweenUnits(rational(1), 'week', 's'), says: 'a week' }
    : { seconds: betweenUnits(rational(1000), 'h', 's'), says: '1 000 h' }
  const step = changeIn(trend, per.seconds)
  const change = `${shown(absolute(step), unit, 3)} in ${per.says}`
  const isRising = step.numerator > 0n
  const move =
    step.numerator === 0n ? 'The log shows no change' : `By its log it ${isRising ? 'rises' : 'falls'} by ${change}`
  const figures: WorkedFigure[] = [
    wordFigure('change', `${isRising ? '' : '−'}${change}`),
    ...(end.at && end.earliest
      ? [wordFigure('at-limit', when(end.at)), wordFigure('earliest', when(end.earliest, 'down'))]
      : []),
  ]
  const spread = trend.spread === null ? ' Two readings: their spread is not known.' : ''
  const isPast = end.at !== null && points.every(({ time }) => isAfter(time, end.at ?? time))
  const meets =
    end.at === null
      ? ` and does not head for ${limit}.`
      : isPast
        ? ` and was at ${limit} before its first row.`
        : ` and meets ${limit} about ${when(end.at)}, perhaps from ${when(end.earliest ?? end.at, 'down')} on.`
  return {
    says: `${move}${meets}${spread}`,
    figures,
    formula:
      'reading = a + b · t by least squares; t at the limit = (limit − a)/b; early: two prediction deviations before it',
    lines: [
      `${points.length} rows of ${table}: ${points.map(({ reading }) => shown(reading, unit, 5)).join(', ')}`,
      `a = ${shown(trend.start, unit, 5)} ${hasDates ? 'at the first row' : 'at 0 h'}; b = ${change}`,
      ...(trend.spread === null ? [] : [`Spread about the line: ± ${shown(fromNumber(trend.spread), unit, 2)}`]),
    ],
    source: 'NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1 and 4.5.1.2',
    caution: `A line is no promise: the last part of wear is often faster. Fewer than five readings give a poor spread. ${localFirst}`,
  }
}

function isAfter(time: Rational, other: Rational): boolean {
  return time.numerator * other.denominator > other.numerator * time.denominator
}
