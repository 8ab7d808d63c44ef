import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, one, rational, subtract, zero } from '../../quantities/rational.ts'
import { pi, squared, squareRoot } from '../binary.ts'

/**
 * Torque and preload. All in coherent units (m, N, N·m); exact unless a line says otherwise.
 *
 * Formulas: NASA-STD-5020B, Requirements for Threaded Fastening Systems in Spaceflight Hardware, 6 Aug 2021, section 4.3 and
 * appendix A.2; MIL-HDBK-60, Threaded Fasteners – Tightening to Proper Tension, 12 Mar 1990, section 6.
 */

/** T = K · D · F. K from a test of the same fasteners, finish and lubricant; a table is no better than ± 25 to 35 %. */
export function boltTorqueOf(nutFactor: Rational, diameter: Rational, force: Rational): Rational {
  return multiply(multiply(nutFactor, diameter), force)
}

/** F = T / (K · D) */
export function boltTensionOf(torque: Rational, nutFactor: Rational, diameter: Rational): Rational {
  return divide(torque, multiply(nutFactor, diameter))
}

/** Largest preload from the largest torque: (1 + Γ) · T / (K · D). */
export function largestPreload(torque: Rational, nutFactor: Rational, diameter: Rational, scatter: Rational): Rational {
  return multiply(add(one, scatter), boltTensionOf(torque, nutFactor, diameter))
}

export function mean(values: readonly Rational[]): Rational {
  return divide(
    values.reduce((sum, value) => add(sum, value), zero),
    rational(values.length),
  )
}

/** Sample standard deviation (n − 1); root to 15 digits. At least two values. */
export function standardDeviation(values: readonly Rational[]): Rational {
  const middle = mean(values)
  const squares = values.reduce((sum, value) => add(sum, squared(subtract(value, middle))), zero)
  return squareRoot(divide(squares, rational(values.length - 1)))
}

export interface ScatterOfTests {
  readonly nominal: Rational
  /** Largest over nominal, less 1. */
  readonly above: Rational
  /** 1 less smallest over nominal. */
  readonly below: Rational
}

/** Preload variation of tests at one torque: largest and smallest against their mean. */
export function scatterOfTests(preloads: readonly Rational[]): ScatterOfTests {
  const nominal = mean(preloads)
  const [first = zero] = preloads
  const largest = preloads.reduce((so, each) => (compare(each, so) > 0 ? each : so), first)
  const smallest = preloads.reduce((so, each) => (compare(each, so) < 0 ? each : so), first)
  return {
    nominal,
    above: subtract(divide(largest, nominal), one),
    below: subtract(one, divide(smallest, nominal)),
  }
}

export interface TorqueLimits {
  readonly largest: Rational
  readonly smallest: Rational
}

/**
 * Torque that makes preload. Above running torque: T ± tolerance as it stands. As a total: the smallest breakaway torque comes off the
 * largest, the largest locking torque off the smallest.
 */
export function effectiveTorque(
  torque: Rational,
  tolerance: Rational,
  running: { readonly smallestBreakaway: Rational; readonly largestLocking: Rational } | null,
): TorqueLimits {
  const largest = add(torque, tolerance)
  const smallest = subtract(torque, tolerance)
  if (running === null) return { largest, smallest }
  return {
    largest: subtract(largest, running.smallestBreakaway),
    smallest: subtract(smallest, running.largestLocking),
  }
}

/** Turn of the nut past snug: θ = σ · L / (E · P) in turns; only where the joint does not give. */
export function turnOfNut(stress: Rational, length: Rational, modulus: Rational, lead: Rational): Rational {
  return divide(elongation(stress, length, modulus), lead)
}

/** F = θ · P · E · A / L, θ in turns: the inverse of `turnOfNut`, times the area. */
export function preloadOfTurn(
  turns: Rational,
  lead: Rational,
  modulus: Rational,
  area: Rational,
  length: Rational,
): Rational {
  return divide(multiply(multiply(turns, lead), multiply(modulus, area)), length)
}

/** δ = σ · L / E */
export function elongation(stress: Rational, length: Rational, modulus: Rational): Rational {
  return divide(multiply(stress, length), modulus)
}

/** Temperature to heat a bolt to before it is run down hand tight: t = t₀ + σ / (E · α). */
export function heatingTemperature(
  stress: Rational,
  modulus: Rational,
  expansion: Rational,
  start: Rational,
): Rational {
  return add(start, divide(stress, multiply(modulus, expansion)))
}

/**
 * Torque from friction: T = F · (P/2π + μ · d · 1.2), with thread friction at d/(2 cos 30°) and under-head friction at (d + 1.5 d)/4
 * rounded together to 1.2 (parts as in MIL-HDBK-60, 6.4; the bearing face of 1.5 d and the rounding are common practice). Error: the
 * 1.2 is good to about 5 % for standard hexagon heads.
 */
export function frictionTorque(force: Rational, lead: Rational, friction: Rational, diameter: Rational): Rational {
  const incline = divide(lead, multiply(rational(2), pi))
  return multiply(force, add(incline, multiply(multiply(rational(12n, 10n), friction), diameter)))
}
