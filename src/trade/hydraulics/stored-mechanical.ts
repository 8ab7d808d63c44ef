import type { Rational } from '../../quantities/quantity-types.ts'
import { divide, multiply, rational } from '../../quantities/rational.ts'
import { fromNumber, squared, toNumber } from '../binary.ts'
import { makeCalculator } from '../make-calculator.ts'

/** Energy of springs, raised masses and turning discs. Joules; SI units. */

const energyUnits = ['J', 'ft·lbf'] as const

const gravity = rational(980665n, 100_000n)

/** E = k · x² / 2 */
export function springEnergy(rate: Rational, travel: Rational): Rational {
  return divide(multiply(rate, squared(travel)), rational(2))
}

/** E = m · g · h with g = 9.80665 m/s² */
export function raisedEnergy(mass: Rational, height: Rational): Rational {
  return multiply(multiply(mass, gravity), height)
}

export const springEnergyCalculator = makeCalculator({
  name: 'spring-energy',
  what: 'Force and energy of a compressed or stretched spring.',
  formula: 'F = k · x; E = k · x² / 2',
  validity: 'Springs of constant rate, x from the free length.',
  source: 'Hooke’s law',
  inputs: {
    rate: { what: 'spring rate', kind: 'stiffness', unit: 'N/mm', symbol: 'k' },
    travel: { what: 'travel from the free length', kind: 'length', unit: 'mm', symbol: 'x' },
  },
  work: ({ rate, travel }) => ({
    ok: true,
    figures: [
      { name: 'force', what: 'force', kind: 'force', units: ['N', 'lbf'], value: multiply(rate, travel) },
      { name: 'energy', what: 'energy', kind: 'energy', units: energyUnits, value: springEnergy(rate, travel) },
    ],
  }),
})

export const raisedMassEnergy = makeCalculator({
  name: 'raised-mass-energy',
  what: 'Energy of a raised mass, and how fast it arrives if it falls.',
  formula: 'E = m · g · h; v = √(2 · g · h)',
  validity: 'Free fall without drag.',
  source: 'Mechanics; g = 9.80665 m/s² (standard gravity)',
  inputs: {
    mass: { what: 'mass', kind: 'mass', unit: 'kg', symbol: 'm' },
    height: { what: 'height it can fall', kind: 'length', unit: 'm', symbol: 'h' },
  },
  work: ({ mass, height }) => ({
    ok: true,
    figures: [
      {
        name: 'energy',
        what: 'energy',
        kind: 'energy',
        units: energyUnits,
        value: raisedEnergy(mass, height),
        digits: 4,
      },
      {
        name: 'speed',
        what: 'speed at the bottom',
        kind: 'speed',
        units: ['m/s', 'ft/s'],
        value: fromNumber(Math.sqrt(2 * toNumber(multiply(gravity, height)))),
        isRounded: true,
        digits: 3,
      },
    ],
  }),
})

/** E = m · r² · ω² / 4 of a solid disc; ω = 2π · n. */
export const flywheelEnergy = makeCalculator({
  name: 'flywheel-energy',
  what: 'Energy of a turning disc.',
  formula: 'E = m · r² · ω² / 4, ω = 2π · n',
  validity: 'A solid disc of even thickness; a rim holds up to twice as much.',
  source: 'Mechanics',
  inputs: {
    mass: { what: 'mass of the disc', kind: 'mass', unit: 'kg', symbol: 'm' },
    diameter: { what: 'diameter', kind: 'length', unit: 'mm', symbol: '2r' },
    speed: { what: 'speed', kind: 'rotational-speed', unit: 'r/min', symbol: 'n' },
  },
  work: ({ mass, diameter, speed }) => {
    const turning = fromNumber((Math.PI * toNumber(speed) * toNumber(diameter)) ** 2 / 4)
    return {
      ok: true,
      figures: [
        {
          name: 'energy',
          what: 'energy',
          kind: 'energy',
          units: energyUnits,
          value: multiply(mass, turning),
          isRounded: true,
          digits: 4,
        },
      ],
    }
  },
})
