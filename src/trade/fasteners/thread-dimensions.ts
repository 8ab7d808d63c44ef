import type { Rational } from '../../quantities/quantity-types.ts'
import { divide, multiply, rational, subtract } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { stressArea, type ThreadGeometry, threadGeometry, threadInputs } from './thread-area.ts'
import { inch } from './thread-size.ts'

/** Dimensions of a thread. */

const areaSource =
  'ASME B1.1, Unified Inch Screw Threads, and NSTS 08307, appendix A (0.9743); ISO 898-1, 9.1.6.1 (0.9382, from memory)'

const areaUnits = ['mm²', 'in²'] as const

export const threadStressArea = makeCalculator({
  name: 'thread-stress-area',
  what: 'Tensile stress area of a thread.',
  formula: 'As = π/4 · (d − 0.9743/n)² for inch threads; As = π/4 · (d − 0.9382·P)² for metric threads',
  validity: 'Standard 60° threads. A pitch coarser than half the diameter is refused.',
  source: areaSource,
  inputs: threadInputs,
  work: (given) => {
    const thread = threadGeometry(given)
    if (!thread.ok) return thread
    const { diameter, pitch } = thread.geometry
    const units = ['mm', 'in'] as const
    return {
      ok: true,
      figures: [
        areaFigure(thread.geometry),
        { name: 'diameter', what: 'nominal diameter', kind: 'length', units, value: diameter },
        { name: 'pitch', what: 'pitch', kind: 'length', units, value: pitch },
        {
          name: 'pitch-diameter',
          what: 'basic pitch diameter',
          kind: 'length',
          units,
          value: subtract(diameter, multiply(rational(649519n, 1_000_000n), pitch)),
          isRounded: true,
        },
      ],
    }
  },
})

function areaFigure({ diameter, pitch, system }: ThreadGeometry): Figure {
  return {
    name: 'stress-area',
    what: 'tensile stress area',
    kind: 'area',
    units: areaUnits,
    value: stressArea(diameter, pitch, system),
    isRounded: true,
    digits: 4,
  }
}

/** Two pitches stand out of the nut. */
export function leastProtrusion(pitch: Rational): Rational {
  return multiply(rational(2), pitch)
}

export const threadProtrusion = makeCalculator({
  name: 'thread-protrusion',
  what: 'How far a thread must at least stand out of a self-locking nut.',
  formula: 'two pitches: 2 / n',
  validity: 'Any thread with one start.',
  source: 'MSFC-STD-486B, Threaded Fasteners, Torque Limits for, Nov 1992, table XII',
  inputs: {
    'threads-per-inch': { what: 'threads per inch', kind: 'number', symbol: 'n', optional: true },
    pitch: { what: 'pitch, for a metric thread', kind: 'length', unit: 'mm', symbol: 'P', optional: true },
  },
  work: (given) => {
    const threads = given['threads-per-inch']
    const pitch = threads === null ? given.pitch : divide(inch, threads)
    if (pitch === null || (threads !== null && given.pitch !== null))
      return refuse('pitch', 'The pitch is not clear.', 'Give threads-per-inch or pitch, and not both.')
    const units = threads === null ? (['mm', 'in'] as const) : (['in'] as const)
    return {
      ok: true,
      figures: [
        {
          name: 'protrusion',
          what: 'least protrusion',
          kind: 'length',
          units,
          value: leastProtrusion(pitch),
          rounding: 'up',
        },
      ],
    }
  },
})
