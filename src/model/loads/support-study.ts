import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, rational, zero } from '../../quantities/rational.ts'
import { type Stability, stabilityOf } from '../../trade/support/reactions.ts'
import type { Resources } from '../resources.ts'
import { type BuiltSupport, builtSupportOf } from './built-support.ts'
import {
  amountIn,
  amountOf,
  type Carrier,
  carriersOf,
  type LoadBlock,
  textsOf,
  type Weight,
  weightOf,
} from './load-data.ts'

/** What stands on what, as far as its block lets it be followed. Weights in kilograms. */
export interface SupportStudy {
  readonly block: LoadBlock
  readonly weight: Weight | null
  /** The typed shares as parts of 1; null for one that cannot be read. */
  readonly shares: readonly (Rational | null)[]
  readonly sharesTyped: readonly string[]
  /** Sum of the shares; null where there are none, or one cannot be read. */
  readonly sum: Rational | null
  /** How near to tipping; null where spread or height are not given. */
  readonly stability: Stability | null
  /** How they are built, where that tells what they carry. */
  readonly built: BuiltSupport | null
  /** In the order written. */
  readonly items: readonly SupportedBy[]
}

export interface SupportedBy {
  readonly carrier: Carrier
  /** In kilograms: its capacity, or what it is built to carry, the smaller of both; null where neither is known. */
  readonly capacity: Rational | null
  /** As part of 1. */
  readonly share: Rational
  /** No share was typed for it: an even one is taken, which is the least that the worst of them gets. */
  readonly isEven: boolean
  /** The most that it may get; null without a weight. */
  readonly carries: Rational | null
  /** Carried over that capacity; null where one of them is missing. */
  readonly used: Rational | null
}

export function studySupport(block: LoadBlock, resources: Resources): SupportStudy {
  const weight = weightOf(block)
  const sharesTyped = textsOf(block, 'share')
  const shares = sharesTyped.map((typed) => amountIn(typed, 'ratio'))
  const carriers = carriersOf(block, 'on', resources)
  const isTold = shares.length === carriers.length && shares.every((share) => share !== null)
  const built = builtSupportOf(block)
  const items = carriers.map((carrier, index): SupportedBy => {
    const share = (isTold ? shares[index] : null) ?? rational(1, carriers.length)
    const carries = weight && multiply(weight.most, share)
    const capacity = smallerOf(carrier.capacity, built?.capacity ?? null)
    const used = carries && capacity && capacity.numerator > 0n ? divide(carries, capacity) : null
    return { carrier, capacity, share, isEven: !isTold && carriers.length > 1, carries, used }
  })
  const read = shares.filter((share) => share !== null)
  const sum = shares.length > 0 && read.length === shares.length ? read.reduce(add, zero) : null
  return { block, weight, shares, sharesTyped, sum, built, items, stability: weight && stabilityIn(block, weight) }
}

function stabilityIn(block: LoadBlock, weight: Weight): Stability | null {
  const spread = amountOf(block, 'spread', 'length')
  const height = amountOf(block, 'height', 'length')
  if (!spread || !height) return null
  const stability = stabilityOf(weight.nominal, divide(spread, rational(2)), height)
  return stability.ok ? stability.value : null
}

function smallerOf(one: Rational | null, other: Rational | null): Rational | null {
  if (one === null || other === null) return one ?? other
  return compare(one, other) <= 0 ? one : other
}
