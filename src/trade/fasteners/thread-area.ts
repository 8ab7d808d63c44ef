import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, rational, subtract } from '../../quantities/rational.ts'
import { pi, squared } from '../binary.ts'
import type { CalculatorProblem } from '../calculator.ts'
import { inch, readThreadSize } from './thread-size.ts'

/**
 * Tensile stress area As = π/4 · (d − c·P)², with c = 0.9743 for unified threads (ASME B1.1; NSTS 08307, appendix A) and
 * c = 0.9382 for metric ones (ISO 898-1, 9.1.6.1; from memory). d and P in one unit of length, the area in its square.
 * Holds for steel bolts to about 100 ksi (690 MPa); exact but for π (40 digits).
 */
export function stressArea(diameter: Rational, pitch: Rational, system: 'metric' | 'inch'): Rational {
  const effective = subtract(diameter, multiply(system === 'inch' ? unified : metric, pitch))
  return circleArea(effective)
}

const unified = rational(9743n, 10_000n)
const metric = rational(9382n, 10_000n)
const four = rational(4)

/** π d² / 4 */
export function circleArea(diameter: Rational): Rational {
  return divide(multiply(pi, squared(diameter)), four)
}

export interface ThreadGeometry {
  readonly diameter: Rational
  readonly pitch: Rational
  readonly system: 'metric' | 'inch'
}

/** A thread given by its size, or by its diameter and threads per inch, or by its diameter and pitch. */
export const threadInputs = {
  thread: { what: 'thread size, such as 1/2-13, 10-32 or M20×1.5', kind: 'size', optional: true },
  diameter: {
    what: 'nominal diameter, where no thread size is given',
    kind: 'length',
    unit: 'mm',
    symbol: 'd',
    optional: true,
  },
  'threads-per-inch': { what: 'threads per inch, with an inch diameter', kind: 'number', symbol: 'n', optional: true },
  pitch: { what: 'pitch, with a metric diameter', kind: 'length', unit: 'mm', symbol: 'P', optional: true },
} as const

export interface ThreadGiven {
  readonly thread: string | null
  readonly diameter: Rational | null
  readonly 'threads-per-inch': Rational | null
  readonly pitch: Rational | null
}

export type GeometryReading =
  | { readonly ok: true; readonly geometry: ThreadGeometry }
  | { readonly ok: false; readonly problem: CalculatorProblem }

export function isThreadGiven(given: ThreadGiven): boolean {
  return given.thread !== null || given.diameter !== null
}

/** Metres, from whichever of `threadInputs` were given. A diameter that is no longer than two pitches is refused. */
export function threadGeometry(given: ThreadGiven): GeometryReading {
  if (given.thread !== null) {
    const read = readThreadSize(given.thread)
    if (!read.ok) return { ok: false, problem: { input: 'thread', message: read.message, advice: read.advice } }
    return { ok: true, geometry: read.size }
  }
  const { diameter, pitch } = given
  const threads = given['threads-per-inch']
  if (diameter === null)
    return problem('thread', 'No thread is given.', 'Give thread, or diameter with threads-per-inch or pitch.')
  if ((threads === null) === (pitch === null))
    return problem(
      'pitch',
      'The pitch is not clear.',
      'Give threads-per-inch for an inch thread or pitch for a metric one, and not both.',
    )
  const lead = threads === null ? pitch : divide(inch, threads)
  if (lead === null || compare(multiply(lead, rational(2)), diameter) > 0)
    return problem(
      'diameter',
      'The thread is too coarse for its diameter.',
      'Look at the diameter and the pitch once more.',
    )
  return { ok: true, geometry: { diameter, pitch: lead, system: threads === null ? 'metric' : 'inch' } }
}

function problem(
  input: string,
  message: string,
  advice: string,
): { readonly ok: false; readonly problem: CalculatorProblem } {
  return { ok: false, problem: { input, message, advice } }
}
