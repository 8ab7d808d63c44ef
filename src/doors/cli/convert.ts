import { convertBetween } from '../../quantities/convert.ts'
import { counterpartUnit } from '../../quantities/counterpart.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { textInUnit } from '../../quantities/print-limit.ts'
import type { Bound, Limit, Parsed, Rational } from '../../quantities/quantity-types.ts'
import type { Unit } from '../../quantities/unit-table.ts'
import { kindInWords, readUnit, unitBySymbol, unitsOfKind } from '../../quantities/units.ts'
import { inColumns } from './columns.ts'
import { exactDecimalText, exactFigure, exactText } from './exact-figure.ts'
import { exitStatus } from './exit-status.ts'
import type { Surroundings } from './surroundings.ts'

export interface ConvertOptions {
  readonly json: boolean
}

/** What is converted, in its own unit, and the units it is wanted in. */
interface Wanted {
  readonly limit: Limit
  readonly unit: Unit
  readonly targets: readonly Unit[]
}

/**
 * `witnessmark convert "max 3/8 in" mm`: the value that witnessmark prints, rounded so that no bad part passes, and the exact one.
 * Without a unit: in every unit of the kind.
 */
export function convert(
  typed: string,
  typedUnit: string | undefined,
  options: ConvertOptions,
  surroundings: Surroundings,
): number {
  const wanted = readWanted(typed, typedUnit)
  if (!wanted.ok) {
    surroundings.say(`${wanted.problem.message} ${wanted.problem.advice}\n`)
    return exitStatus({ wrongUse: true, failed: false })
  }
  surroundings.print(options.json ? asJson(wanted.value) : asText(wanted.value, typedUnit === undefined))
  return exitStatus({ wrongUse: false, failed: false })
}

function readWanted(typed: string, typedUnit: string | undefined): Parsed<Wanted> {
  if (typedUnit === undefined) return withTargets(parseLimit(typed), (unit) => unitsOfKind(unit.kind))
  const asRead = parseLimit(typed)
  const limit = asRead.ok ? ofKindOf(typedUnit, typed, asRead.value) : asRead
  if (!limit.ok) return limit
  const target = readUnit(typedUnit, limit.value.kind)
  if (!target.ok) return { ok: false, problem: { ...target.problem, from: 0, to: typedUnit.length } }
  return withTargets(limit, () => [target.unit])
}

/** `30 ft lb` is a torque, but an energy where it is wanted in joules: the unit asked for decides where kinds share a spelling. */
function ofKindOf(typedUnit: string, typed: string, limit: Limit): Parsed<Limit> {
  if (readUnit(typedUnit, limit.kind).ok) return { ok: true, value: limit }
  const alone = readUnit(typedUnit)
  const other = alone.ok ? parseLimit(typed, alone.unit.kind) : null
  return other?.ok ? other : { ok: true, value: limit }
}

function withTargets(limit: Parsed<Limit>, targets: (unit: Unit) => readonly Unit[]): Parsed<Wanted> {
  if (!limit.ok) return limit
  const unit = unitBySymbol(limit.value.unit)
  if (!unit) throw new Error(`the parser gave the unit "${limit.value.unit}", which the table has not`)
  return { ok: true, value: { limit: limit.value, unit, targets: targets(unit) } }
}

/** The numbers of a limit by what people call them. */
function numbersOf(limit: Limit): readonly (readonly [name: string, value: Rational])[] {
  if (limit.form === 'nominal') return limit.aim ? [['value', limit.aim]] : []
  const numbers: [string, Rational][] = []
  if (limit.lower) numbers.push(['lower end', limit.lower.value])
  if (limit.upper) numbers.push(['upper end', limit.upper.value])
  if (limit.aim) numbers.push(['aim', limit.aim])
  return numbers
}

function asText({ limit, unit, targets }: Wanted, isList: boolean): string {
  const [target] = targets
  const pair = limit.pair === null ? '' : `The value in parentheses, ${limit.pair.typed}, was left out of it.\n`
  const head = `${limit.typed} is ${kindInWords(limit.kind)}`
  if (!isList && target) {
    const rows = [
      ['printed', textInUnit(limit, target) ?? nothingPrinted],
      ...numbersOf(limit).map(([name, value]) => [name, exactText(convertBetween(value, unit, target), target)]),
    ]
    return `${head}. In ${nameOf(target)}:\n${inColumns(rows)}${pair}`
  }
  const usual = counterpartUnit(
    unit,
    numbersOf(limit).map(([, value]) => value),
  )
  const rows = targets.map((each) => [
    nameOf(each),
    textInUnit(limit, each) ?? '—',
    ...numbersOf(limit).map(([, value]) => exactDecimalText(convertBetween(value, unit, each), each)),
    each === unit ? 'as typed' : each === usual ? 'the one a checklist prints' : '',
  ])
  const titles = ['unit', 'printed', ...numbersOf(limit).map(([name]) => name), '']
  return `${head}. In every unit of its kind:\n${inColumns([titles, ...rows])}${pair}`
}

const nothingPrinted = '— (between the ends no rounded value is left)'

function nameOf(unit: Unit): string {
  return unit.symbol === '' ? 'no unit' : unit.symbol
}

function asJson({ limit, unit, targets }: Wanted): string {
  const bound = (end: Bound | null, target: Unit) =>
    end && { ...exactFigure(convertBetween(end.value, unit, target)), inclusive: end.inclusive }
  const results = targets.map((target) => ({
    unit: target.symbol,
    ucum: target.ucum,
    printed: textInUnit(limit, target),
    lower: bound(limit.lower, target),
    upper: bound(limit.upper, target),
    [limit.form === 'nominal' ? 'value' : 'aim']: limit.aim && exactFigure(convertBetween(limit.aim, unit, target)),
  }))
  const { typed, kind, form } = limit
  return `${JSON.stringify({ typed, kind, form, unit: unit.symbol, results }, null, 2)}\n`
}
