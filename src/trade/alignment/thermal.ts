import type { Rational } from '../../quantities/quantity-types.ts'
import { multiply, rational, subtract } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { makeCalculator } from '../make-calculator.ts'

/** Growth with temperature. Exact; one unit of length, kelvins. */

const lengthUnits = ['mm', 'in'] as const

/** α · L · ΔT */
export function thermalGrowth(expansion: Rational, length: Rational, difference: Rational): Rational {
  return multiply(multiply(expansion, length), difference)
}

/** Reference temperature of lengths: 20 °C (ISO 1:2016), in kelvins. */
const reference = rational(29_315n, 100n)

export const thermalGrowthCalculator = makeCalculator({
  name: 'thermal-growth',
  what: 'How much a part grows with temperature.',
  formula: 'ΔL = α · L · ΔT; ΔT from 20 °C where a temperature is given without a start',
  validity:
    'Even temperature. Published α of one steel differ by 2 % (11.5e-6 and 11.7e-6 per K) and more between steels.',
  source: 'Definition; ISO 1:2016 (20 °C)',
  inputs: {
    expansion: { what: 'coefficient of thermal expansion', kind: 'thermal-expansion', unit: '1/K', symbol: 'α' },
    length: { what: 'length', kind: 'length', unit: 'mm', symbol: 'L' },
    difference: {
      what: 'difference of temperature',
      kind: 'temperature-difference',
      unit: 'Δ°C',
      symbol: 'ΔT',
      optional: true,
    },
    temperature: {
      what: 'temperature of the part, in place of the difference',
      kind: 'temperature',
      unit: '°C',
      symbol: 'T',
      optional: true,
    },
    start: {
      what: 'temperature it starts from, 20 °C where not given',
      kind: 'temperature',
      unit: '°C',
      optional: true,
    },
  },
  work: ({ expansion, length, difference, temperature, start }) => {
    const rise = difference ?? (temperature === null ? null : subtract(temperature, start ?? reference))
    if (rise === null || (difference !== null && temperature !== null))
      return refuse(
        'difference',
        'The change of temperature is not clear.',
        'Give difference, or temperature (and start), and not both.',
      )
    return {
      ok: true,
      figures: [
        {
          name: 'growth',
          what: 'growth',
          kind: 'length',
          units: lengthUnits,
          value: thermalGrowth(expansion, length, rise),
          digits: 3,
        },
      ],
    }
  },
})

/** Cold target of a foot: as much low as it will grow more than the fixed machine. */
export function coldTarget(growthMoved: Rational, growthFixed: Rational): Rational {
  return subtract(growthFixed, growthMoved)
}

export const thermalTarget = makeCalculator({
  name: 'thermal-target',
  what: 'How far off a machine is set cold, so that it stands right when it is warm.',
  formula: 'target = α · (h₁ · ΔT₁ − h₂ · ΔT₂); 1 the fixed machine, 2 the moved one; high positive',
  validity:
    'Heights from the sole plate to the shaft, even temperatures. Measured growth of the maker holds before it.',
  source: 'Common practice of alignment, no published source',
  inputs: {
    expansion: { what: 'coefficient of thermal expansion', kind: 'thermal-expansion', unit: '1/K', symbol: 'α' },
    'fixed-height': { what: 'shaft height of the fixed machine', kind: 'length', unit: 'mm', symbol: 'h₁' },
    'fixed-rise': { what: 'its rise of temperature', kind: 'temperature-difference', unit: 'Δ°C', symbol: 'ΔT₁' },
    'moved-height': { what: 'shaft height of the moved machine', kind: 'length', unit: 'mm', symbol: 'h₂' },
    'moved-rise': { what: 'its rise of temperature', kind: 'temperature-difference', unit: 'Δ°C', symbol: 'ΔT₂' },
  },
  work: (given) => {
    const fixed = thermalGrowth(given.expansion, given['fixed-height'], given['fixed-rise'])
    const moved = thermalGrowth(given.expansion, given['moved-height'], given['moved-rise'])
    const shared = { kind: 'length', units: lengthUnits, digits: 3 } as const
    return {
      ok: true,
      figures: [
        { name: 'target', what: 'target of the moved shaft, cold', value: coldTarget(moved, fixed), ...shared },
        { name: 'growth-fixed', what: 'growth of the fixed machine', value: fixed, ...shared },
        { name: 'growth-moved', what: 'growth of the moved machine', value: moved, ...shared },
      ],
    }
  },
})
