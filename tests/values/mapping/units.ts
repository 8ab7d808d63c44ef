import { convertValue } from '../../../src/quantities/convert.ts'
import { roundToStep } from '../../../src/quantities/inward.ts'
import { fractionText } from '../../../src/quantities/number-text.ts'
import { parseLimit } from '../../../src/quantities/parse-limit.ts'
import { parseQuantity } from '../../../src/quantities/parse-quantity.ts'
import { printQuantity } from '../../../src/quantities/print-limit.ts'
import type { Rational } from '../../../src/quantities/quantity-types.ts'
import { compare, powerOfTen, roundNearest } from '../../../src/quantities/rational.ts'
import { readUnit, unitBySymbol } from '../../../src/quantities/units.ts'
import {
  decimalsOf,
  isConsistent,
  limitInDigits,
  roundingError,
  significantDigits,
} from '../../../src/trade/measurement/printed-figures.ts'
import { convertUcum, readUcum } from '../../../src/trade/measurement/ucum.ts'
import type { CaseValue } from '../case-file.ts'
import { symbolOf } from '../case-units.ts'
import { exactOf } from '../compare.ts'
import type { CaseMapping, Outcome } from '../mapping.ts'

type Values = ReadonlyMap<string, CaseValue>

function caseValue(values: Values, name: string): CaseValue {
  const found = values.get(name)
  if (!found) throw new Error(`no ${name}`)
  return found
}

/** A number of a case in the unit of an expected value; by UCUM where the unit is written in it. */
function converted(given: CaseValue, to: string | null): Outcome {
  if (to?.includes(' / ')) return to.split(' / ').map((each) => converted(given, each))
  // A bare figure and a percentage: what its last place leaves open.
  if (!given.unit && to === '%') {
    const figure = String(given.value)
    return { exact: roundingError(exactOf(figure), decimalsOf(figure)), unit: '' }
  }
  const [from, target] = [symbolOf(given.unit ?? ''), symbolOf(to ?? '')]
  const exact = exactOf(given.value)
  if (from !== null && target !== null) return inUnit(exact, from, target)
  const byCode = convertUcum(exact, given.unit ?? '', to ?? '')
  if (byCode === null) throw new Error(`${given.unit} and ${to} are no units of one kind`)
  return { exact: byCode, unit: target ?? to ?? '' }
}

function inUnit(value: Rational, from: string, to: string): Outcome {
  return { exact: convertedExactly(value, from, to), unit: to }
}

function convertedExactly(value: Rational, from: string, to: string): Rational {
  const result = convertValue(value, from, to)
  if (!result.ok) throw new Error(result.problem.message)
  return result.value
}

function symbolFor(unit: string | null): string {
  const symbol = symbolOf(unit ?? '')
  if (symbol === null) throw new Error(`${unit} is not known`)
  return symbol
}

/** Each input under its own name, in the unit that is expected under that name. */
const byName: CaseMapping = {
  inputs: ['a', 'b', 'c', 't', 'dt', 'p', 'x', 'y'],
  expected: ['a', 'b', 'c', 't', 'dt', 'p', 'x', 'y'],
  work: (inputs, expected) =>
    Object.fromEntries([...expected].map(([name, { unit }]) => [name, converted(caseValue(inputs, name), unit)])),
}

const oneToAnother: CaseMapping = {
  inputs: ['x'],
  expected: ['y'],
  work: (inputs, expected) => ({ y: converted(caseValue(inputs, 'x'), caseValue(expected, 'y').unit) }),
}

/** Both figures, and whether one could stand for the other. */
const interchangeable: CaseMapping = {
  inputs: ['a', 'b'],
  expected: ['a', 'b', 'interchangeable'],
  work: (inputs, expected, told) => {
    const [first, second] = ['a', 'b'].map((name) => caseValue(inputs, name))
    return {
      ...('work' in byName
        ? byName.work(inputs, new Map([...expected].filter(([name]) => inputs.has(name))), told)
        : {}),
      interchangeable: convertValue(
        exactOf(first?.value),
        symbolFor(first?.unit ?? null),
        symbolFor(second?.unit ?? null),
      ).ok,
    }
  },
}

const ratioOfCodes: CaseMapping = {
  inputs: ['a', 'b'],
  expected: ['ratio'],
  work: (inputs) => {
    const [a, b] = ['a', 'b'].map((name) => caseValue(inputs, name))
    const exact = convertUcum(exactOf(a?.value), a?.unit ?? '', b?.unit ?? '')
    if (exact === null) throw new Error('no units of one dimension')
    return { ratio: { exact, unit: '' } }
  },
}

const validCodes: CaseMapping = {
  inputs: ['codes'],
  expected: ['valid'],
  work: (inputs) => ({
    valid: (caseValue(inputs, 'codes').value as readonly string[]).map((code) => readUcum(code) !== null),
  }),
}

/** A length rounded for print by the digits it was typed with. */
const roundedForPrint: CaseMapping = {
  inputs: ['l', 'significant'],
  expected: ['exact', 'rounded'],
  work: (inputs, expected) => {
    const { value, unit } = caseValue(inputs, 'l')
    const typed = parseQuantity(`${value} ${symbolFor(unit)}`)
    const printed = typed.ok ? parseQuantity(printQuantity(typed.value, ['metric']).text) : typed
    if (!printed.ok) throw new Error(printed.problem.message)
    return {
      exact: converted(caseValue(inputs, 'l'), caseValue(expected, 'exact').unit),
      rounded: { exact: printed.value.value, unit: printed.value.unit, text: printed.value.written ?? '' },
    }
  },
}

/** Ends of a limit in another unit with so many decimals: inward, and to the nearest, which is wrong. */
const limitInDecimals: CaseMapping = {
  inputs: ['nominal', 'tol', 'max', 'min', 'decimals'],
  expected: ['upper', 'lower', 'max', 'min', 'upper_nearest_wrong', 'lower_nearest_wrong'],
  work: (inputs, expected) => {
    const text = inputs.has('nominal')
      ? `${caseValue(inputs, 'nominal').value} ± ${caseValue(inputs, 'tol').value} ${symbolFor(caseValue(inputs, 'nominal').unit)}`
      : `${caseValue(inputs, 'min').value} to ${caseValue(inputs, 'max').value} ${symbolFor(caseValue(inputs, 'max').unit)}`
    const limit = parseLimit(text)
    if (!limit.ok) throw new Error(limit.problem.message)
    const unit = symbolFor([...expected.values()][0]?.unit ?? null)
    const end = (bound: { readonly value: Rational } | null) =>
      bound && convertedExactly(bound.value, limit.value.unit, unit)
    const ends = { lower: end(limit.value.lower), upper: end(limit.value.upper) }
    const step = powerOfTen(-Number(caseValue(inputs, 'decimals').value))
    const inward = roundToStep(ends, step)
    const outcome = (exact: Rational | null): Outcome => (exact ? { exact, unit } : null)
    return {
      upper: outcome(inward.upper),
      lower: outcome(inward.lower),
      max: outcome(inward.upper),
      min: outcome(inward.lower),
      upper_nearest_wrong: outcome(ends.upper && roundNearest(ends.upper, step)),
      lower_nearest_wrong: outcome(ends.lower && roundNearest(ends.lower, step)),
    }
  },
}

/** A limit in two other units, with the digits it was typed with, never wider. */
const limitByRole: CaseMapping = {
  inputs: ['p', 'role'],
  expected: ['kPa', 'psi'],
  work: (inputs, expected) => {
    const { value, unit } = caseValue(inputs, 'p')
    const side = caseValue(inputs, 'role').value === 'lower' ? 'lower' : 'upper'
    const digits = significantDigits(String(value))
    return Object.fromEntries(
      [...expected].map(([name, wanted]) => {
        const to = symbolFor(wanted.unit)
        const exact = convertedExactly(exactOf(value), symbolFor(unit), to)
        return [name, { exact: limitInDigits(exact, side, digits), unit: to }]
      }),
    )
  },
}

const fractions: CaseMapping = {
  inputs: ['x'],
  expected: ['mixed', 'decimal', 'mm'],
  work: (inputs) => {
    const { value, unit } = caseValue(inputs, 'x')
    const symbol = symbolFor(unit)
    return {
      mixed: fractionText(exactOf(value)).replace('-', ' '),
      decimal: { exact: exactOf(value), unit: symbol },
      mm: inUnit(exactOf(value), symbol, 'mm'),
    }
  },
}

/** Pairs of figures: `[a, unit, b, unit]`, or `[a, b]` with the units beside, `in / mm`. */
function pairOf(
  written: readonly unknown[],
  units: string | null,
): readonly [first: string, from: string, second: string, to: string] {
  const [first, second, third, fourth] = written.map(String)
  if (written.length > (['first', 'second'] as const).length)
    return [first ?? '', symbolFor(second ?? null), third ?? '', symbolFor(fourth ?? null)]
  const [from = null, to = null] = (units ?? '').split(' / ')
  return [first ?? '', symbolFor(from), second ?? '', symbolFor(to)]
}

function isReversed(range: readonly Rational[]): boolean {
  const [from, to] = [range.at(0), range.at(-1)]
  return from !== undefined && to !== undefined && compare(from, to) > 0
}

const pairs: CaseMapping = {
  inputs: ['pairs', 'pair'],
  expected: ['consistent', 'correct_first', 'correct', 'range_reversed'],
  work: (inputs, expected) => {
    const given = inputs.get('pairs') ?? caseValue(inputs, 'pair')
    const all = (inputs.has('pairs') ? given.value : [given.value]) as readonly (readonly unknown[])[]
    const read = all.map((each) => pairOf(each, given.unit))
    const consistent = read.map(([first, from, second, to]) =>
      isConsistent(exactOf(first), from, exactOf(second), to, decimalsOf(second)),
    )
    const firstWrong = read.find((_, index) => consistent[index] === false) ?? read.at(0)
    const right = firstWrong && inUnit(exactOf(firstWrong[0]), firstWrong[1], firstWrong[3])
    return {
      consistent: Array.isArray(expected.get('consistent')?.value) ? consistent : consistent.every((each) => each),
      correct_first: right ?? null,
      correct: right ?? null,
      range_reversed: isReversed(read.map(([first]) => exactOf(first))),
    }
  },
}

const dimension: CaseMapping = {
  inputs: ['force'],
  expected: ['dimension_ok'],
  aside: ['wanted'],
  work: (inputs) => {
    const reading = readUnit(caseValue(inputs, 'force').unit ?? '', 'force')
    return { dimension_ok: reading.ok && unitBySymbol(reading.unit.symbol)?.kind === 'force' }
  },
}

export const units: readonly CaseMapping[] = [
  byName,
  oneToAnother,
  interchangeable,
  ratioOfCodes,
  validCodes,
  roundedForPrint,
  limitInDecimals,
  limitByRole,
  fractions,
  pairs,
  dimension,
  { calculator: 'rounded-sum', inputs: { terms: 'terms' }, expected: { sum: 'sum' } },
  {
    calculator: 'decision-rule',
    inputs: { measured: 'reading', lower_limit: 'lower', upper_limit: 'upper' },
    expected: { conforms: 'within' },
  },
]
