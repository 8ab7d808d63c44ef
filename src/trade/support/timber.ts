import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, one, rational, smaller, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { pi } from '../binary.ts'

/** Cribbing, planks and props. All in one system of units: N, m and Pa, or lbf, in and psi. */

/** A crib of crossed timbers, alike in every layer. */
export interface Crib {
  /** Width of a timber where two layers cross. */
  readonly timberWidth: Rational
  /** Timbers in a layer: 2 or more. */
  readonly timbersInLayer: number
  /** Outside width of the base. */
  readonly baseWidth: Rational
  readonly height: Rational
  /** What the wood bears across its grain. */
  readonly bearingStrength: Rational
}

export interface CribVerdict {
  /** Crossings times their area times the strength. */
  readonly capacity: Rational
  /** Height over base. */
  readonly slenderness: Rational
  readonly isLowEnough: boolean
}

/** No taller than this times its base. */
const tallestCrib = rational(3)

/**
 * A crib carries n² b² f: n timbers a layer cross n others in n² places of b × b, f the strength across the grain. No taller than three times its
 * base; while a load is moved, than once. Exact.
 * Source: US Army Corps of Engineers and FEMA, Shoring Operations Guide (4 × 4 in: 24 000 lbf, 6 × 6 in: 60 000 lbf at 500 psi), from memory.
 */
export function cribCapacity(crib: Crib): Answer<CribVerdict> {
  if (!Number.isInteger(crib.timbersInLayer) || crib.timbersInLayer < 2)
    return refuse('timbers', 'A layer has fewer than two timbers.', 'Lay two or more timbers in each layer.')
  const wrong = notPositive(crib)
  if (wrong) return refuse(wrong, `${inWords(wrong)} must be above 0.`, 'Measure it.')
  const across = multiply(rational(crib.timbersInLayer), crib.timberWidth)
  if (compare(across, crib.baseWidth) > 0)
    return refuse('base-width', 'The timbers do not fit side by side on the base.', 'Measure base and timbers again.')
  const slenderness = divide(crib.height, crib.baseWidth)
  return answer({
    capacity: multiply(multiply(across, across), crib.bearingStrength),
    slenderness,
    isLowEnough: compare(slenderness, tallestCrib) <= 0,
  })
}

/** A plank on two bearers, loaded in the middle. */
export interface Plank {
  readonly load: Rational
  readonly span: Rational
  readonly width: Rational
  readonly thickness: Rational
  readonly bendingStrength: Rational
  /** Modulus of elasticity. */
  readonly stiffness: Rational
}

export interface PlankVerdict {
  readonly stress: Rational
  /** Stress over strength. */
  readonly used: Rational
  readonly sag: Rational
  /** Sag over span. */
  readonly sagShare: Rational
  readonly isEnough: boolean
}

/** A platform may sag by no more than this share of its span: 29 CFR 1926.451(f)(16), from memory. */
const mostSag = rational(1, 60)

/**
 * Bending of a plank: stress σ = 3 P l/(2 b t²), sag f = P l³/(4 E b t³), load in the middle (the worst place). Exact.
 * Source: simple beam, statics. Strengths come from the grade stamp of the wood or the maker of the plank.
 */
export function plankBending(plank: Plank): Answer<PlankVerdict> {
  const wrong = notPositive(plank)
  if (wrong) return refuse(wrong, `${inWords(wrong)} must be above 0.`, 'Type it.')
  const { load, span, width, thickness, bendingStrength, stiffness } = plank
  const square = multiply(thickness, thickness)
  const stress = divide(product(rational(3), load, span), product(rational(2), width, square))
  const sag = divide(product(load, span, span, span), product(rational(4), stiffness, width, square, thickness))
  const used = divide(stress, bendingStrength)
  const sagShare = divide(sag, span)
  return answer({
    stress,
    used,
    sag,
    sagShare,
    isEnough: compare(used, one) <= 0 && compare(sagShare, mostSag) <= 0,
  })
}

/** A round tube, upright, pinned at both ends, its wall as it is now. */
export interface Prop {
  readonly outside: Rational
  readonly inside: Rational
  readonly length: Rational
  readonly stiffness: Rational
  readonly strength: Rational
  /** By how much the load must stay below the load at which it fails: 2 or more. */
  readonly safetyFactor: Rational
}

export interface PropVerdict {
  readonly capacity: Rational
  readonly fails: 'buckling' | 'crushing'
}

/**
 * A prop carries the smaller of what buckles it, π² E I/l², and what crushes it, f A, each over the safety factor; A = π (D² - d²)/4,
 * I = π (D⁴ - d⁴)/64. To 40 digits. It must stand plumb and be loaded in its axis. The maker's rating comes first.
 * Source: L. Euler, pinned column; textbook of strength of materials.
 */
export function propCapacity(prop: Prop): Answer<PropVerdict> {
  const { inside, ...above } = prop
  const wrong = notPositive(above)
  if (wrong) return refuse(wrong, `${inWords(wrong)} must be above 0.`, 'Measure it.')
  if (compare(inside, zero) < 0 || compare(inside, prop.outside) >= 0)
    return refuse('inside', 'The hole is as wide as the prop.', 'Measure outside and inside again.')
  if (compare(prop.safetyFactor, rational(2)) < 0)
    return refuse('safety-factor', 'A safety factor below 2 is too little here.', 'Type 2 or more; 3 is usual.')
  const outsideSquare = multiply(prop.outside, prop.outside)
  const insideSquare = multiply(inside, inside)
  const area = divide(multiply(pi, subtract(outsideSquare, insideSquare)), rational(4))
  const fourth = subtract(multiply(outsideSquare, outsideSquare), multiply(insideSquare, insideSquare))
  const inertia = divide(multiply(pi, fourth), rational(64))
  const buckling = divide(product(pi, pi, prop.stiffness, inertia), multiply(prop.length, prop.length))
  const crushing = multiply(prop.strength, area)
  const least = smaller(buckling, crushing)
  return answer({
    capacity: divide(least, prop.safetyFactor),
    fails: compare(buckling, crushing) < 0 ? 'buckling' : 'crushing',
  })
}

function product(...factors: readonly Rational[]): Rational {
  return factors.reduce(multiply, one)
}

function notPositive(sizes: object): string | null {
  const wrong = Object.entries(sizes).find(
    ([, size]) => typeof size === 'object' && compare(size as Rational, zero) <= 0,
  )
  return wrong ? wrong[0] : null
}

function inWords(name: string): string {
  const words = name.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`)
  return words.charAt(0).toUpperCase() + words.slice(1)
}
