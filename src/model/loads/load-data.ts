import { toBase } from '../../quantities/convert.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { QuantityKind, Rational } from '../../quantities/quantity-types.ts'
import { divide, fromDecimalText, multiply, one } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import type { Step } from '../procedure.ts'
import type { Resource, Resources } from '../resources.ts'

/** What `lift`, `support` and `handle` give to work with. Weights are in kilograms, a force as the weight that presses so hard. */

/** One load under a key, by its own name: `lift: { hub: … }`. */
export interface LoadBlock {
  readonly name: string
  readonly at: Place
  /** The long form, every scalar as typed. */
  readonly fields: { readonly [key: string]: PlainValue }
}

export interface Weight {
  /** As typed: `640 kg ± 10 %`. */
  readonly typed: string
  /** The most that it may weigh, in kilograms. */
  readonly most: Rational
  /** The figure without its allowance. */
  readonly nominal: Rational
  /** Whether the author says how sure it is. */
  readonly hasAllowance: boolean
  /** The unit typed, to answer in; `kg` for a force. */
  readonly unit: string
}

/** Gear as it stands in the list or in the library. */
export interface Carrier {
  readonly id: string
  readonly name: string
  readonly resource: Resource | null
  /** In kilograms; null where there is none that is a weight. */
  readonly capacity: Rational | null
  readonly capacityTyped: string | null
  /** The angle that the tag of a sling with several legs is for, as typed: `60° from horizontal`. */
  readonly ratedAt: string | null
}

/** The loads under a key of a step, in the order written. */
export function loadBlocks(step: Step, key: 'lift' | 'support' | 'handle'): readonly LoadBlock[] {
  return step.entries
    .filter((entry) => entry.key === key)
    .flatMap((entry) =>
      Object.entries(isFields(entry.data) ? entry.data : {}).flatMap(([name, fields]): readonly LoadBlock[] => {
        const at = entry.lines.find((line) => line.name === name)?.at ?? entry.at
        return isFields(fields) ? [{ name, at, fields }] : []
      }),
    )
}

export function textOf({ fields }: LoadBlock, key: string): string | null {
  const value = fields[key]
  return typeof value === 'string' && value.trim() !== '' ? value : null
}

export function textsOf({ fields }: LoadBlock, key: string): readonly string[] {
  const value = fields[key]
  if (typeof value === 'string') return [value]
  return Array.isArray(value) ? value.filter((item): item is string => typeof item === 'string') : []
}

/** A whole number, or null. */
export function countOf(block: LoadBlock, key: string): number | null {
  const typed = textOf(block, key)
  return typed !== null && /^\d+$/.test(typed) ? Number(typed) : null
}

/** A figure in the base unit of its kind (metres, seconds, turns); null where there is none that can be read. */
export function amountOf(block: LoadBlock, key: string, kind: QuantityKind): Rational | null {
  const typed = textOf(block, key)
  return typed === null ? null : amountIn(typed, kind)
}

export function amountIn(typed: string, kind: QuantityKind): Rational | null {
  const parsed = parseQuantity(typed, kind)
  const unit = parsed.ok ? unitBySymbol(parsed.value.unit) : null
  return parsed.ok && unit && parsed.value.kind === kind ? toBase(parsed.value.value, unit) : null
}

/** The weight of a load; null where it cannot be read, has no upper end, or is no weight. */
export function weightOf(block: LoadBlock): Weight | null {
  const typed = textOf(block, 'load')
  const parsed = typed === null ? null : parseLimit(typed)
  if (typed === null || !parsed?.ok) return null
  const { lower, upper, aim, unit, kind } = parsed.value
  const top = upper?.value ?? (lower === null ? aim : null)
  const most = top && kilogramsOf(top, unit)
  if (!most || most.numerator <= 0n) return null
  const middle = aim && kilogramsOf(aim, unit)
  return { typed, most, nominal: middle ?? most, hasAllowance: upper !== null, unit: kind === 'mass' ? unit : 'kg' }
}

/** Standard gravity, exact by definition: 9.80665 m/s² (3rd General Conference on Weights and Measures, 1901). */
const gravity = fromDecimalText('9.80665') ?? one

function kilogramsOf(value: Rational, symbol: string): Rational | null {
  const unit = unitBySymbol(symbol)
  if (unit?.kind === 'mass') return toBase(value, unit)
  return unit?.kind === 'force' ? divide(toBase(value, unit), gravity) : null
}

/** The gear of that name, whatever list it stands in. */
function carrierNamed(id: string, resources: Resources): Carrier {
  const resource = [...resources.gear, ...resources.tools].find((candidate) => candidate.id === id) ?? null
  const typed = resource?.facts.find((fact) => fact.name === 'capacity')?.text ?? null
  const parsed = typed === null ? null : parseQuantity(typed)
  const capacity = parsed?.ok ? kilogramsOf(parsed.value.value, parsed.value.unit) : null
  return {
    id,
    name: resource?.name ?? id.replaceAll('-', ' '),
    resource,
    capacity: capacity && capacity.numerator > 0n ? capacity : null,
    capacityTyped: typed,
    ratedAt: resource?.facts.find((fact) => fact.name === 'rated at')?.text ?? null,
  }
}

/** The gear that stands in a list of a load. */
export function carriersOf(block: LoadBlock, key: 'with' | 'on', resources: Resources): readonly Carrier[] {
  return [...new Set(textsOf(block, key))].map((id) => carrierNamed(id, resources))
}

/** What jerk adds to a load: 1 where nothing is said, 1.25 for `shock: 25`. */
export function jerkFactor(block: LoadBlock): Rational {
  const percent = fromDecimalText(textOf(block, 'shock') ?? '')
  if (percent === null || percent.numerator < 0n) return one
  return divide({ ...percent, numerator: percent.numerator + 100n * percent.denominator }, hundred)
}

const hundred: Rational = { numerator: 100n, denominator: 1n }

/** 0.25 as 25. */
export function inPercent(share: Rational): Rational {
  return multiply(share, hundred)
}

function isFields(value: PlainValue | undefined): value is { readonly [key: string]: PlainValue } {
  return typeof value === 'object' && !Array.isArray(value)
}
