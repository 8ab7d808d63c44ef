import type { QuantityKind, Rational } from '../../quantities/quantity-types.ts'
import { add, compare, fromExactText, multiply, one, rational } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import { beltDeflection } from '../../trade/wear/belt.ts'
import { chainWearLimit } from '../../trade/wear/chain.ts'
import type { LookUpTable } from '../entries.ts'
import { amountOf, countOf, type LoadBlock, textOf } from '../loads/load-data.ts'
import { inBase } from '../passes/worked-figures.ts'
import type { Step } from '../procedure.ts'
import type { Reading } from '../readings.ts'
import { type LogStudy, studyLog } from './log-study.ts'

/** The wear of one part as far as its block lets it be followed. Values in the base unit of their kind. */
export interface WearStudy {
  /** Name of the reading that it is judged by. */
  readonly name: string
  readonly at: Place
  /** Null where no step has a reading of that name. */
  readonly reading: Reading | null
  readonly ends: Ends
  readonly chain: ChainWear | null
  readonly belt: BeltAdjustment | null
  readonly log: LogStudy | null
}

/** The limit of the reading; null where an end is open or only settled at the bench. */
interface Ends {
  readonly lower: Rational | null
  readonly upper: Rational | null
}

export interface ChainWear {
  readonly pitch: string
  readonly pitches: number
  readonly teeth: number | null
  readonly isFixed: boolean
  /** Length of the measured pitches when new. */
  readonly newLength: Rational
  /** How much longer it may get, as a part. */
  readonly share: Rational
  readonly wornLength: Rational
}

export interface BeltAdjustment {
  readonly span: string
  readonly deflection: Rational
}

/** Everything under `wear` of a step, in the order written. */
export function wearsOf(
  step: Step,
  readings: readonly Reading[],
  tables: readonly LookUpTable[],
): readonly WearStudy[] {
  return step.entries
    .filter(({ key }) => key === 'wear')
    .flatMap((entry) =>
      Object.entries(isFields(entry.data) ? entry.data : {}).flatMap(([name, fields]) => {
        const at = entry.lines.find((line) => line.name === name)?.at ?? entry.at
        return isFields(fields) ? [studyWear({ name, at, fields }, readings, tables)] : []
      }),
    )
}

function studyWear(block: LoadBlock, readings: readonly Reading[], tables: readonly LookUpTable[]): WearStudy {
  const own = readings.filter(({ name }) => name === block.name)
  const reading = own.find(({ limit }) => limit !== null) ?? own[0] ?? null
  const chain = chainOf(block)
  const ends = endsOf(reading)
  const table = textOf(block, 'log')
  const limits = { lower: ends.lower, upper: ends.upper ?? chain?.wornLength ?? null }
  return {
    name: block.name,
    at: block.at,
    reading,
    ends,
    chain,
    belt: beltOf(block),
    log: table === null ? null : studyLog(table, tables, limits, reading?.limit?.unit ?? reading?.unit ?? null),
  }
}

function endsOf(reading: Reading | null): Ends {
  const limit = reading?.limit ?? null
  const end = (exact: string | undefined): Rational | null => {
    const value = exact === undefined ? null : fromExactText(exact)
    return value && limit && unitBySymbol(limit.unit) ? inBase(value, limit.unit) : null
  }
  return { lower: end(limit?.lower?.exact), upper: end(limit?.upper?.exact) }
}

function chainOf(block: LoadBlock): ChainWear | null {
  const pitch = amountOf(block, 'pitch', 'length')
  const pitches = countOf(block, 'pitches')
  if (pitch === null || pitches === null || pitches === 0 || pitch.numerator <= 0n) return null
  const teeth = countOf(block, 'teeth')
  const isFixed = textOf(block, 'centres') === 'fixed'
  const newLength = multiply(pitch, rational(pitches))
  const share = chainWearLimit(teeth === null || teeth === 0 ? null : rational(teeth), !isFixed)
  return {
    pitch: textOf(block, 'pitch') ?? '',
    pitches,
    teeth,
    isFixed,
    newLength,
    share,
    wornLength: multiply(newLength, add(one, share)),
  }
}

function beltOf(block: LoadBlock): BeltAdjustment | null {
  const span = amountOf(block, 'span', 'length')
  if (span === null || span.numerator <= 0n) return null
  return { span: textOf(block, 'span') ?? '', deflection: beltDeflection(span) }
}

/** What is wrong with the limit of the reading beside what wear allows; null where it fits, or cannot be held against it. */
export function limitAgainstWear({
  reading,
  ends,
  chain,
  belt,
}: WearStudy): 'lets-it-wear' | 'below-new' | 'off' | null {
  if (reading?.limit?.kind !== ('length' satisfies QuantityKind)) return null
  const { lower, upper } = ends
  if (chain && upper) {
    if (compare(upper, chain.wornLength) > 0) return 'lets-it-wear'
    return compare(upper, chain.newLength) < 0 ? 'below-new' : null
  }
  if (belt === null) return null
  const isLow = lower !== null && compare(belt.deflection, lower) < 0
  const isHigh = upper !== null && compare(belt.deflection, upper) > 0
  return isLow || isHigh ? 'off' : null
}

function isFields(value: PlainValue | undefined): value is { readonly [key: string]: PlainValue } {
  return typeof value === 'object' && !Array.isArray(value)
}
