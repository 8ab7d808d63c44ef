import { convertValue, fromBase, toBase } from '../../src/quantities/convert.ts'
import { parseNumber } from '../../src/quantities/parse-number.ts'
import type { Rational } from '../../src/quantities/quantity-types.ts'
import {
  absolute,
  add,
  compare,
  divide,
  multiply,
  powerOfTen,
  rational,
  subtract,
  toDecimalText,
  zero,
} from '../../src/quantities/rational.ts'
import { unitBySymbol } from '../../src/quantities/units.ts'
import type { CaseValue } from './case-file.ts'
import { symbolOf } from './case-units.ts'
import type { Outcome } from './mapping.ts'

/** A number of a file, exactly as its decimal stands. */
export function exactOf(value: unknown): Rational {
  const read = parseNumber(String(value))
  if (!read.ok) throw new Error(`${value}: ${read.problem.message}`)
  return read.value.value
}

/** What differs, in words; null where all agrees. */
export function difference(expected: CaseValue, outcome: Outcome | undefined): string | null {
  return differs(expected.value, outcome, expected)
}

function differs(wanted: unknown, outcome: Outcome | undefined, expected: CaseValue): string | null {
  if (outcome === undefined) return 'nothing came out'
  if (Array.isArray(wanted)) return listDiffers(wanted, outcome, expected)
  if (typeof wanted === 'object' && wanted !== null) {
    if (typeof outcome !== 'object' || outcome === null) return `a table was expected, ${String(outcome)} came out`
    const table = outcome as Readonly<Record<string, Outcome>>
    const names = Object.keys(wanted)
    return first(names.map((name) => differs((wanted as Record<string, unknown>)[name], table[name], expected)))
  }
  // One value for what was worked out for several inputs: it must hold for each, and "all right" means each of them.
  if (Array.isArray(outcome)) {
    if (typeof wanted === 'boolean')
      return wanted === outcome.every((each) => truth(each)) ? null : `${wanted} was expected`
    return first(outcome.map((each) => differs(wanted, each, expected)))
  }
  if (typeof wanted === 'boolean')
    return truth(outcome) === wanted ? null : `${wanted} was expected, ${String(outcome)} came out`
  if (typeof wanted === 'number') return numberDiffers(wanted, outcome, expected)
  const text =
    typeof outcome === 'object' && outcome !== null
      ? JSON.stringify(outcome, (_, part) => (typeof part === 'bigint' ? `${part}` : part))
      : String(outcome)
  return text === String(wanted) ? null : `${String(wanted)} was expected, ${text} came out`
}

function listDiffers(wanted: readonly unknown[], outcome: Outcome, expected: CaseValue): string | null {
  if (!Array.isArray(outcome)) return `${wanted.length} values were expected, one came out`
  if (wanted.length !== outcome.length) return `${wanted.length} values were expected, ${outcome.length} came out`
  const units = expected.unit?.split(' / ') ?? []
  const isEachInItsOwn = units.length > 1 && units.length === wanted.length
  return first(
    wanted.map((each, index) =>
      differs(each, outcome[index], isEachInItsOwn ? { ...expected, unit: units[index] ?? null } : expected),
    ),
  )
}

function truth(outcome: Outcome): boolean {
  return outcome === true || outcome === 'yes' || outcome === 'true'
}

function first(all: readonly (string | null)[]): string | null {
  return all.find((each) => each !== null) ?? null
}

/** Room for numbers that a file gives without a tolerance: they stand for themselves. */
const roomOfDecimals = powerOfTen(-12)

/** The tolerance; in a list or table without one, half of the last place that it prints: 1154.7 there is a rounded number. */
function roomOf({ value, tolerance }: CaseValue): Rational {
  if (tolerance !== null) return exactOf(tolerance)
  const places = typeof value === 'object' && value !== null ? Math.max(0, ...decimalsIn(value)) : 0
  return places === 0 ? zero : divide(powerOfTen(-places), rational(2))
}

function decimalsIn(value: unknown): readonly number[] {
  if (typeof value === 'object' && value !== null) return Object.values(value).flatMap(decimalsIn)
  return typeof value === 'number' ? [String(value).split('.')[1]?.length ?? 0] : []
}

function numberDiffers(wanted: number, outcome: Outcome, expected: CaseValue): string | null {
  const { unit, text } = expected
  const worked = typeof outcome === 'number' ? { exact: exactOf(outcome), unit: '' } : outcome
  if (typeof worked !== 'object' || worked === null || !('exact' in worked))
    return `${wanted} was expected, ${String(worked)} came out`
  const { exact, unit: from, text: written } = worked as { exact: Rational; unit: string; text?: string }
  const value = inUnitOf(exact, from, unit)
  if (typeof value === 'string') return value
  const right = exactOf(wanted)
  const tolerated = roomOf(expected)
  const room = add(tolerated, multiply(absolute(right), roomOfDecimals))
  if (compare(absolute(subtract(value, right)), room) > 0)
    return `${wanted} ${unit ?? ''} ± ${toDecimalText(tolerated, 9)} was expected, ${toDecimalText(value, 9)} came out`
  if (text !== null && written !== undefined && text !== written) return `"${text}" was expected, "${written}" came out`
  return null
}

/** In the unit of the file; a text says why not. A plain part and a percentage are two ways to write one number. */
function inUnitOf(exact: Rational, from: string, unit: string | null): Rational | string {
  if (unit === null || unit === from) return exact
  const to = symbolOf(unit, unitBySymbol(from)?.kind)
  if (to === null) return `${unit} is not a known unit`
  const [source, target] = [unitBySymbol(from), unitBySymbol(to)]
  if (source?.kind === 'number' && target?.kind === 'ratio') return fromBase(exact, target)
  if (source?.kind === 'ratio' && target?.kind === 'number') return toBase(exact, source)
  const converted = convertValue(exact, from, to)
  return converted.ok ? converted.value : converted.problem.message
}

/** Every way to make one expected value wrong, one at a time. */
export function perturbed(expected: CaseValue): readonly CaseValue[] {
  return wrongs(expected.value, expected).map((value) => ({ ...expected, value }))
}

function wrongs(value: unknown, expected: CaseValue): readonly unknown[] {
  if (Array.isArray(value))
    return value.flatMap((each, index) => wrongs(each, expected).map((wrong) => value.with(index, wrong)))
  if (typeof value === 'object' && value !== null)
    return Object.entries(value).flatMap(([name, each]) =>
      wrongs(each, expected).map((wrong) => ({ ...value, [name]: wrong })),
    )
  if (typeof value === 'boolean') return [!value]
  if (typeof value === 'number') {
    const room = Number(toDecimalText(roomOf(expected), 15))
    const step = Math.max(3 * room, Math.abs(value) * 1e-3, 1e-9)
    return [value + step, value - step]
  }
  return [`not ${String(value)}`]
}
