import type { Rational } from '../../quantities/quantity-types.ts'
import { absolute, add, compare, divide, multiply, rational, subtract } from '../../quantities/rational.ts'
import { squareRoot } from '../../trade/binary.ts'
import { degrees } from '../../trade/lifting/leg-inputs.ts'
import {
  type AngleConvention,
  angleOfRise,
  fromHorizontal,
  riseFromLengths,
  riseOfLeg,
} from '../../trade/lifting/sling-angle.ts'
import { amountIn, amountOf, countOf, type LoadBlock, textOf } from './load-data.ts'

/** The legs of a lift: how many, and how steep. */
export interface Legs {
  /** Legs between hook and load; 1 for a load on one sling or carrier. */
  readonly count: number
  /** How steep they stand; null for one leg, and where it is not known. */
  readonly lean: Lean | null
  readonly problem: LegProblem | null
}

interface Lean {
  /** sin of the angle from horizontal. */
  readonly rise: Rational
  /** Degrees from horizontal. */
  readonly degrees: Rational
  /** What it is worked out from: `60° from horizontal`, `leg 3 m, hook 2.6 m above the points`. */
  readonly by: string
  /** Height of the hook above the hook-on points in metres, and their distance; null where not known. */
  readonly height: Rational | null
  readonly span: Rational | null
}

/** What stands in the way of working the legs out. */
export interface LegProblem {
  /** `open`: there are figures, and they do not settle it; `missing`: there are none. */
  readonly what: 'convention' | 'misfit' | 'open' | 'missing'
  readonly message: string
  readonly advice: string
}

const wantedData = 'the angle with what it is measured from (angle 60° from horizontal), or leg-length and height'

export function legsOf(block: LoadBlock): Legs {
  const told = countOf(block, 'legs')
  const typedAngle = textOf(block, 'angle')
  const length = amountOf(block, 'leg-length', 'length')
  const height = amountOf(block, 'height', 'length')
  const span = amountOf(block, 'hook-points', 'length')
  const count = told ?? 1
  const unsolved = (what: LegProblem['what'], message: string, advice: string): Legs => ({
    count,
    lean: null,
    problem: { what, message, advice },
  })

  const angle = typedAngle === null ? null : readAngle(typedAngle)
  if (angle?.convention === null)
    return unsolved(
      'convention',
      `The angle ${typedAngle} does not say what it is measured from.`,
      'Write `from horizontal`, `from vertical` or `between legs` behind it.',
    )
  if (told === null && (angle !== null || length !== null || height !== null))
    return unsolved(
      'open',
      'The legs have an angle or a length, and it is not said how many they are.',
      'Add `legs 2`.',
    )
  if (told === 0) return unsolved('misfit', '`legs 0`: nothing carries the load.', 'Write how many legs carry it.')
  if (count === 1) return { count, lean: null, problem: null }

  const fromAngle = angle && leanFromAngle(angle, { height, span })
  if (fromAngle && 'message' in fromAngle) return unsolved('misfit', fromAngle.message, fromAngle.advice)
  const fromLengths = leanFromLengths({ count, length, height, span, block })
  if (fromLengths && 'message' in fromLengths) return unsolved('misfit', fromLengths.message, fromLengths.advice)
  if (fromAngle && fromLengths && compare(absolute(subtract(fromAngle.degrees, fromLengths.degrees)), rational(2)) > 0)
    return unsolved(
      'misfit',
      `The angle is ${typedAngle}, and the lengths give ${wholeDegrees(fromLengths.degrees)} from horizontal.`,
      'Measure again and correct one of them, or leave the angle out.',
    )
  const lean = flatter(fromAngle, fromLengths)
  if (lean === null)
    return count > 2 && span && length
      ? unsolved('open', openWords(block, count), `Add ${wantedData}.`)
      : unsolved('missing', `Nothing tells how steep its ${count} legs stand.`, `Add ${wantedData}.`)
  return { count, lean, problem: null }
}

interface ReadAngle {
  readonly typed: string
  readonly degrees: Rational
  /** What it is measured from; null where that is not said. */
  readonly convention: AngleConvention | null
}

const bases: readonly (readonly [RegExp, AngleConvention])[] = [
  [/\b(?:from|to|off|above|against)\s+(?:the\s+)?(?:horizontal|level)$/i, 'from-horizontal'],
  [/\b(?:from|to|off|against)\s+(?:the\s+)?(?:vertical|plumb)$/i, 'from-vertical'],
  [/\b(?:between\s+(?:the\s+)?(?:two\s+)?legs|included)$/i, 'included'],
]

/** `60° from horizontal`; null where there is no angle in it at all. */
export function readAngle(typed: string): ReadAngle | null {
  const base = bases.find(([pattern]) => pattern.test(typed.trim()))
  const figure = base ? typed.trim().replace(base[0], '').trim() : typed.trim()
  const turns = amountIn(figure, 'angle')
  return turns && { typed, degrees: degrees(turns), convention: base?.[1] ?? null }
}

type Refusal = { readonly message: string; readonly advice: string }

function leanFromAngle(
  { typed, degrees: value, convention }: ReadAngle,
  { height, span }: Pick<Lean, 'height' | 'span'>,
): Lean | Refusal | null {
  if (convention === null) return null
  const level = fromHorizontal(value, convention)
  if (!level.ok) return { message: `${typed}: ${level.problem.message}`, advice: level.problem.advice }
  return { rise: riseOfLeg(level.value), degrees: level.value, by: typed, height, span }
}

interface Lengths extends Pick<Lean, 'height' | 'span'> {
  readonly count: number
  readonly length: Rational | null
  readonly block: LoadBlock
}

/**
 * From two of leg length L, height H of the hook and distance s of the hook-on points: H = √(L² − (s/2)²), L = √(H² + (s/2)²).
 * The distance helps for two legs only: of three and four it is not known which points it lies between.
 */
function leanFromLengths({ count, length, height, span, block }: Lengths): Lean | Refusal | null {
  const typed = (key: string) => textOf(block, key) ?? ''
  const half = span && count === 2 ? divide(span, rational(2)) : null
  if (length && height) {
    const rise = riseFromLengths(height, length)
    if (!rise.ok) return { message: rise.problem.message, advice: rise.problem.advice }
    const by = `${typed('leg-length')} long, hook ${typed('height')} above the points`
    return { rise: rise.value, degrees: angleOfRise(rise.value), by, height, span }
  }
  if (!half) return null
  if (length) {
    if (compare(length, half) <= 0)
      return {
        message: `Legs of ${typed('leg-length')} do not meet above hook points ${typed('hook-points')} apart.`,
        advice: 'Use longer slings, or correct the lengths.',
      }
    const hook = squareRoot(subtract(multiply(length, length), multiply(half, half)))
    const rise = divide(hook, length)
    const by = `${typed('leg-length')} long, hook points ${typed('hook-points')} apart`
    return { rise, degrees: angleOfRise(rise), by, height: hook, span }
  }
  if (!height || height.numerator <= 0n) return null
  const leg = squareRoot(add(multiply(height, height), multiply(half, half)))
  const rise = divide(height, leg)
  const by = `hook ${typed('height')} above points ${typed('hook-points')} apart`
  return { rise, degrees: angleOfRise(rise), by, height, span }
}

function flatter(one: Lean | null, other: Lean | null): Lean | null {
  if (one === null || other === null) return one ?? other
  const flat = compare(one.degrees, other.degrees) <= 0 ? one : other
  return { ...flat, height: other.height ?? one.height, span: other.span ?? one.span }
}

function openWords(block: LoadBlock, count: number): string {
  return `${count} legs with leg-length and hook-points: it is not known which of the points lie ${textOf(block, 'hook-points')} apart.`
}

function wholeDegrees(value: Rational): string {
  return `${(value.numerator * 2n + value.denominator) / (value.denominator * 2n)}°`
}
