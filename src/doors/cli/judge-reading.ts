import { type Judgement, type JudgeOptions, judge, uncertaintyAt } from '../../quantities/judge-reading.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { parseQuantity, readNumberWithUnit, tidyBlanks } from '../../quantities/parse-quantity.ts'
import type {
  Bound,
  Limit,
  Parsed,
  Quantity,
  QuantityKind,
  QuantityProblem,
  Rational,
} from '../../quantities/quantity-types.ts'
import { absolute, compare, divide, fromExactText, isZero, multiply, subtract } from '../../quantities/rational.ts'
import type { Unit } from '../../quantities/unit-table.ts'
import { unitBySymbol, unitsOfKind } from '../../quantities/units.ts'
import { inColumns } from './columns.ts'
import { exactDecimalText, exactFigure } from './exact-figure.ts'
import { exitStatus } from './exit-status.ts'
import type { Surroundings } from './surroundings.ts'

export interface JudgeReadingOptions {
  /** As typed: `0.01 mm`. */
  readonly uncertainty?: string
  readonly json: boolean
}

/** How far a reading lies from one end of its limit, as a difference in the unit that was read. */
interface Distance {
  readonly end: 'lower end' | 'upper end'
  readonly size: Rational
  readonly unit: Unit
  /** Beyond the end, so out of limit; at the end it depends on whether the end belongs to the limit. */
  readonly side: 'within' | 'beyond' | 'at'
}

const words = { in: 'in limit', low: 'low', high: 'high', 'in-doubt': 'in doubt', unreadable: 'unreadable' } as const

/**
 * `witnessmark judge-reading "max 3/8 in" "9.4 mm"`: in, low, high, in doubt or unreadable, how far, and what was expected.
 * Gives 0 for in, 1 for out or in doubt, 2 for what cannot be read.
 */
export function judgeReading(
  typedLimit: string,
  typedReading: string,
  options: JudgeReadingOptions,
  surroundings: Surroundings,
): number {
  const refuse = (what: string, { message, advice }: QuantityProblem) => {
    surroundings.say(`${what}: ${message} ${advice}\n`)
    return exitStatus({ wrongUse: true, failed: false })
  }
  const limit = parseLimit(typedLimit)
  if (!limit.ok) return refuse('The limit', limit.problem)
  const uncertainty = readUncertainty(options.uncertainty, limit.value.kind)
  if (uncertainty !== null && !uncertainty.ok) return refuse('The uncertainty', uncertainty.problem)
  const judgement = judge(limit.value, typedReading, optionsFor(limit.value, typedReading, uncertainty?.value))
  const distance = distanceOf(limit.value, typedReading, judgement)
  const status = exitStatus({
    wrongUse: judgement.verdict === 'unreadable',
    failed: judgement.verdict !== 'in',
  })
  if (options.json) surroundings.print(asJson(limit.value, typedReading, judgement, distance))
  else if (judgement.verdict === 'unreadable' && judgement.problem) {
    surroundings.print(`unreadable\n${inColumns([['expected', judgement.expected]])}`)
    return refuse('The reading', judgement.problem)
  } else surroundings.print(asText(limit.value, typedReading, judgement, distance, uncertainty?.value ?? null))
  return status
}

/** To either side: of the limit's kind, a difference behind a temperature, or a share of the reading (`1 %`). */
function readUncertainty(typed: string | undefined, kind: QuantityKind): Parsed<Quantity> | null {
  if (typed === undefined) return null
  const share = parseQuantity(typed)
  const isShare = share.ok && share.value.kind === 'ratio'
  const read = isShare ? share : parseQuantity(typed, kind === 'temperature' ? 'temperature-difference' : kind)
  if (!read.ok || read.value.value.numerator >= 0n) return read
  const problem = {
    message: `"${read.value.typed}" is below zero.`,
    advice: 'Type it without the sign, as the instrument’s paper gives it: `0.01 mm`.',
  }
  return { ok: false, problem: { ...problem, from: 0, to: typed.length } }
}

/** A share becomes a quantity at the reading; where that cannot be read, nothing is judged anyway. */
function optionsFor(limit: Limit, typedReading: string, uncertainty: Quantity | undefined): JudgeOptions {
  if (!uncertainty) return {}
  const { value } = judge(limit, typedReading)
  const read = value === null ? null : fromExactText(value)
  return read === null ? {} : uncertaintyAt(uncertainty, read, limit.unit)
}

/** To the end that it passed, else to the nearest one. */
function distanceOf(limit: Limit, typedReading: string, judgement: Judgement): Distance | null {
  const unit = unitBySymbol(limit.unit)
  const value = judgement.value === null ? null : fromExactText(judgement.value)
  if (value === null || unit === null || limit.form === 'nominal') return null
  const read = readNumberWithUnit(typedReading, 0, typedReading.length, limit.kind)
  const readIn = read.ok && read.value.unit ? read.value.unit : unit
  const to = (bound: Bound | null, end: Distance['end']): Distance | null => {
    if (bound === null) return null
    const past = end === 'lower end' ? subtract(bound.value, value) : subtract(value, bound.value)
    const side = isZero(past) ? 'at' : past.numerator > 0n ? 'beyond' : 'within'
    // A difference: the offset of a temperature scale has no part in it.
    const size = divide(multiply(absolute(past), unit.factor), readIn.factor)
    return { end, size, unit: differenceUnit(readIn), side }
  }
  const both = [to(limit.lower, 'lower end'), to(limit.upper, 'upper end')].filter((each) => each !== null)
  return both.find((each) => each.side === 'beyond') ?? nearestOf(both)
}

function nearestOf(distances: readonly Distance[]): Distance | null {
  return distances.reduce<Distance | null>(
    (best, each) => (best === null || compare(each.size, best.size) < 0 ? each : best),
    null,
  )
}

/** Degrees of difference are written apart from degrees: 2 Δ°C. */
function differenceUnit(unit: Unit): Unit {
  if (unit.kind !== 'temperature') return unit
  const same = unitsOfKind('temperature-difference').find((each) => compare(each.factor, unit.factor) === 0)
  return same ?? unit
}

function asText(
  limit: Limit,
  typedReading: string,
  judgement: Judgement,
  distance: Distance | null,
  uncertainty: Quantity | null,
): string {
  const rows: string[][] = [['expected', judgement.expected]]
  const unit = unitBySymbol(limit.unit)
  const value = judgement.value === null ? null : fromExactText(judgement.value)
  if (unit && value) {
    const read = readNumberWithUnit(typedReading, 0, typedReading.length, limit.kind)
    const other = read.ok && read.value.unit !== null && read.value.unit !== unit
    rows.push([
      'read',
      other ? `${tidyBlanks(typedReading)}, that is ${exactDecimalText(value, unit)}` : exactDecimalText(value, unit),
    ])
  }
  if (distance) rows.push(['how far', distanceText(distance, judgement)])
  if (uncertainty && judgement.guard && unit) {
    rows.push(['uncertainty', `± ${uncertainty.typed}`])
    rows.push(['surely in', guardText(judgement, unit)])
  }
  const sentences = [
    judgement.verdict === 'in-doubt' && judgement.leans !== null ? doubtSentence(judgement.leans) : '',
    judgement.problem === null ? '' : `${judgement.problem.message} ${judgement.problem.advice}`,
    judgement.hint ?? '',
  ].filter((sentence) => sentence !== '')
  return `${words[judgement.verdict]}\n${inColumns(rows)}${sentences.map((sentence) => `${sentence}\n`).join('')}`
}

function distanceText({ end, size, unit, side }: Distance, { verdict }: Judgement): string {
  if (side === 'at')
    return verdict === 'low' || verdict === 'high' ? `at the ${end}, which is not in the limit itself` : `at the ${end}`
  const way = (end === 'upper end') === (side === 'beyond') ? 'above' : 'below'
  return `${exactDecimalText(size, unit)} ${way} the ${end}`
}

function guardText({ guard }: Judgement, unit: Unit): string {
  if (guard === null || guard.acceptsNothing) return 'nothing: the uncertainty is as wide as the limit'
  const lower = guard.lower && fromExactText(guard.lower.exact)
  const upper = guard.upper && fromExactText(guard.upper.exact)
  if (lower && upper) return `${exactDecimalText(lower)} to ${exactDecimalText(upper, unit)}`
  if (upper) return `${guard.upper?.inclusive ? 'max' : 'under'} ${exactDecimalText(upper, unit)}`
  return lower ? `${guard.lower?.inclusive ? 'min' : 'over'} ${exactDecimalText(lower, unit)}` : '—'
}

function doubtSentence(leans: 'in' | 'out'): string {
  const side = leans === 'in' ? 'inside' : 'outside'
  return `The figure is ${side} the limit, but nearer to its end than the uncertainty. Treat it as out of limit until a finer instrument, or the person who is responsible, has settled it.`
}

function asJson(limit: Limit, typedReading: string, judgement: Judgement, distance: Distance | null): string {
  const { verdict, expected, leans, guard, problem, hint } = judgement
  const value = judgement.value === null ? null : fromExactText(judgement.value)
  return `${JSON.stringify(
    {
      limit: limit.typed,
      reading: typedReading,
      verdict,
      expected,
      unit: limit.unit,
      kind: limit.kind,
      value: value && exactFigure(value),
      distance: distance && {
        to: distance.end,
        side: distance.side,
        ...exactFigure(distance.size),
        unit: distance.unit.symbol,
      },
      leans,
      guard,
      problem: problem && { message: problem.message, advice: problem.advice },
      hint,
    },
    null,
    2,
  )}\n`
}
