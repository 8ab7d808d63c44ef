import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { PrintedBound, Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, fromExactText, one, rational } from '../../quantities/rational.ts'
import { readFastener } from '../../trade/fasteners/joint.ts'
import type { Torque } from '../readings.ts'
import type { Working } from '../working.ts'
import { inBase } from './worked-figures.ts'

/** What a torque says beside its limit, read as figures. All values in the base unit of their kind: N·m, metres, turns. */

/** One working of a torque, but for what all of its workings share. */
export type TorqueWorking = Omit<Working, 'key' | 'of' | 'at'>

export function factOf(torque: Torque, name: string): string | null {
  return torque.facts.find((fact) => fact.name === name)?.text ?? null
}

export interface TorqueEnds {
  readonly low: Rational
  readonly high: Rational
  /** The aim, else the middle. */
  readonly middle: Rational
  /** As typed. */
  readonly unit: string
}

/** Null where no torque is given, or only by what readings say. A limit of one end has both here. */
export function endsOfTorque({ limit }: Torque): TorqueEnds | null {
  if (limit.kind !== 'torque') return null
  const value = (exact: string | null) => {
    const read = exact === null ? null : fromExactText(exact)
    return read && inBase(read, limit.unit)
  }
  const end = (bound: PrintedBound | null) => value(bound?.exact ?? null)
  const aim = value(limit.aim)
  const low = end(limit.lower) ?? end(limit.upper) ?? aim
  const high = end(limit.upper) ?? end(limit.lower) ?? aim
  if (low === null || high === null || low.numerator <= 0n) return null
  return { low, high, middle: aim ?? divide(add(low, high), rational(2)), unit: limit.unit }
}

/** A fact as one quantity of a kind; null where it is none. */
export function quantityOf(torque: Torque, name: string, kind: string): Rational | null {
  const typed = factOf(torque, name)
  return typed === null ? null : quantityFrom(typed, kind)
}

export function quantityFrom(typed: string, kind: string): Rational | null {
  const read = parseQuantity(typed, kind)
  return read.ok && read.value.kind === kind ? inBase(read.value.value, read.value.unit) : null
}

/** Share of a pass, `50 %` → 50; null for a torque or a release. */
export function percentOf(share: string | null): Rational | null {
  const digits = share === null ? undefined : /^(\d+)(?:\.(\d+))?\s*%$/.exec(share)
  return digits ? rational(BigInt(digits[1] + (digits[2] ?? '')), 10n ** BigInt((digits[2] ?? '').length)) : null
}

/** Rows and columns of bolts in a rectangle, as `rectangle 2 × 4` says them; null where they stand otherwise. */
export function rectangleOf(torque: Torque): { readonly rows: number; readonly columns: number } | null {
  const [, rows, columns] = /^(\d+)\s*[×x]\s*(\d+)$/.exec(factOf(torque, 'rectangle') ?? '') ?? []
  return rows === undefined || columns === undefined ? null : { rows: Number(rows), columns: Number(columns) }
}

/** How many are tightened; null where nobody says, or only a name. */
export function countOfBolts({ fastener }: Torque): number | null {
  const count =
    fastener === null ? null : (readFastener(fastener)?.count ?? Number(/^\d+(?=\s*[×x])/.exec(fastener)?.[0]))
  return count || null
}

/** One round of the passes: part of the full torque it ends at; null for a release, or a text that is no torque. */
export interface Round {
  readonly says: string
  readonly share: Rational | null
  readonly isRelease: boolean
}

const HUNDRED = rational(100)

/** The rounds as parts of the aim or the middle of the band; a torque within the band is the full torque, 1. */
export function roundsIn(torque: Torque): readonly Round[] {
  const ends = endsOfTorque(torque)
  return torque.passes.map(({ share, text }): Round => {
    if (share === null && text.startsWith('release')) return { says: 'release', share: null, isRelease: true }
    const percent = percentOf(share)
    if (percent !== null) return { says: share ?? text, share: divide(percent, HUNDRED), isRelease: false }
    const value = quantityFrom(text, 'torque')
    if (value === null || ends === null) return { says: text, share: null, isRelease: false }
    const isFull = compare(value, ends.low) >= 0 && compare(value, ends.high) <= 0
    return { says: text, share: isFull ? one : divide(value, ends.middle), isRelease: false }
  })
}
