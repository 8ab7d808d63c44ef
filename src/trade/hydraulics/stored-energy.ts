import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, one, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { fromNumber, toNumber } from '../binary.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** Energy that stays in a machine when it stands still. Joules, pascals, cubic metres. Powers and logarithms to 14 digits. */

const pcc =
  'ASME PCC-2, Repair of Pressure Equipment and Piping, article 501, mandatory appendices 501-II and 501-III (read in a page that reproduces it)'

/** E = 2.5 · p · V · (1 − (pa/p)^0.286): air and nitrogen, absolute pressures, p above pa. */
export function gasEnergy(pressure: Rational, volume: Rational, air: Rational): Rational {
  return expansion(pressure, volume, air, 2.5, 0.286)
}

/** E = p · V / (k − 1) · (1 − (pa/p)^((k − 1)/k)): any gas, k above 1. */
export function gasEnergyOf(pressure: Rational, volume: Rational, air: Rational, k: Rational): Rational {
  const exponent = toNumber(k)
  return expansion(pressure, volume, air, 1 / (exponent - 1), (exponent - 1) / exponent)
}

function expansion(pressure: Rational, volume: Rational, air: Rational, factor: number, exponent: number): Rational {
  const rest = fromNumber(factor * (1 - toNumber(divide(air, pressure)) ** exponent))
  return multiply(multiply(pressure, volume), rest)
}

/** E = p · V · ln(p/pa): slow expansion at one temperature; more than the quick one, never less. */
export function isothermalEnergy(pressure: Rational, volume: Rational, air: Rational): Rational {
  return multiply(multiply(pressure, volume), fromNumber(Math.log(toNumber(divide(pressure, air)))))
}

/** Joules a kilogram of TNT: ASME PCC-2, and the larger figure of a university’s pressure safety page, which counts less TNT. */
export const tntEnergy = { pcc: rational(4_266_920), university: rational(4_620_000) } as const

/** R = 20 m/kg^⅓ · (2 · TNT)^⅓ */
export function scaledDistance(tnt: Rational): Rational {
  return fromNumber(20 * Math.cbrt(2 * toNumber(tnt)))
}

const nearLimit = rational(135_500_000)
const farLimit = rational(271_000_000)
const highHazard = rational(100_000)

/** Least distance in metres: 30 up to 135.5 MJ, 60 up to 271 MJ, the scaled one above; limits included. */
export function leastDistance(energy: Rational, tnt: Rational): Rational {
  if (compare(energy, nearLimit) <= 0) return rational(30)
  return compare(energy, farLimit) <= 0 ? rational(60) : scaledDistance(tnt)
}

function blastFigures(energy: Rational): readonly Figure[] {
  const tnt = divide(energy, tntEnergy.pcc)
  const shared = { isRounded: true, digits: 4 } as const
  const isAbove = compare(energy, farLimit) > 0
  return [
    { name: 'tnt', what: 'TNT of the same energy', kind: 'mass', units: ['kg', 'lb'], value: tnt, ...shared },
    {
      name: 'tnt-university',
      what: 'the same by 4.62 MJ/kg',
      kind: 'mass',
      units: ['kg', 'lb'],
      value: divide(energy, tntEnergy.university),
      ...shared,
    },
    {
      name: 'scaled-distance',
      what: 'distance by 20 m/kg^⅓',
      kind: 'length',
      units: ['m', 'ft'],
      value: scaledDistance(tnt),
      ...shared,
      rounding: 'up',
    },
    {
      name: 'least-distance',
      what: 'least distance',
      kind: 'length',
      units: ['m', 'ft'],
      value: leastDistance(energy, tnt),
      rounding: 'up',
      ...(isAbove ? shared : {}),
    },
    {
      name: 'high-hazard',
      what: 'highly hazardous (above 100 kJ)',
      word: compare(energy, highHazard) > 0 ? 'yes' : 'no',
    },
  ]
}

const energyUnits = ['kJ', 'ft·lbf'] as const

export const storedGasEnergy = makeCalculator({
  name: 'stored-gas-energy',
  what: 'Energy of compressed gas, its TNT equivalent and the distance to keep in a pressure test.',
  formula:
    'E = 2.5 · p · V · (1 − (pa/p)^0.286), or with k: E = p · V / (k − 1) · (1 − (pa/p)^((k − 1)/k)); slow: p · V · ln(p/pa); R = 20 · (2 · TNT)^⅓',
  validity:
    'Absolute pressures, p above the air around. 30 m up to 135.5 MJ, 60 m up to 271 MJ, R above. Whoever is responsible for the test decides.',
  source: pcc,
  inputs: {
    'absolute-pressure': { what: 'absolute pressure of the gas', kind: 'pressure', unit: 'MPa', symbol: 'p' },
    volume: { what: 'volume of the gas', kind: 'volume', unit: 'm³', symbol: 'V' },
    air: {
      what: 'absolute pressure of the air around, 101 kPa where not given',
      kind: 'pressure',
      unit: 'kPa',
      symbol: 'pa',
      optional: true,
    },
    'heat-ratio': {
      what: 'ratio of specific heats, for another gas than air or nitrogen',
      kind: 'number',
      symbol: 'k',
      optional: true,
    },
  },
  work: ({ 'absolute-pressure': pressure, volume, air, 'heat-ratio': k }) => {
    const around = air ?? rational(101_000)
    if (compare(pressure, around) <= 0)
      return refuse(
        'absolute-pressure',
        'The gas is not above the air around it.',
        'Give the absolute pressure: gauge reading plus the air around.',
      )
    if (k !== null && compare(k, one) <= 0)
      return refuse('heat-ratio', 'The ratio is not above 1.', 'Air is 1.4, helium 1.66, steam 1.3.')
    const energy = k === null ? gasEnergy(pressure, volume, around) : gasEnergyOf(pressure, volume, around, k)
    const slow = isothermalEnergy(pressure, volume, around)
    const shared = { isRounded: true } as const
    return {
      ok: true,
      figures: [
        { name: 'energy', what: 'energy', kind: 'energy', units: energyUnits, value: energy, ...shared },
        {
          name: 'isothermal-energy',
          what: 'energy of a slow expansion',
          kind: 'energy',
          units: energyUnits,
          value: slow,
          ...shared,
        },
        {
          name: 'isothermal-ratio',
          what: 'slow over quick',
          kind: 'number',
          value: divide(slow, energy),
          ...shared,
          digits: 4,
        },
        ...blastFigures(energy),
      ],
    }
  },
})

export const blastDistance = makeCalculator({
  name: 'blast-distance',
  what: 'TNT equivalent of a stored energy and the distance to keep.',
  formula: 'TNT = E / 4.26692 MJ/kg; R = 20 · (2 · TNT)^⅓',
  validity: '30 m up to 135.5 MJ, 60 m up to 271 MJ, R above. Above 100 kJ counts as highly hazardous.',
  source: `${pcc}; 100 kJ and 4.62 MJ/kg: a university’s pressure safety page`,
  inputs: { energy: { what: 'stored energy', kind: 'energy', unit: 'kJ', symbol: 'E' } },
  work: ({ energy }) => ({ ok: true, figures: blastFigures(energy) }),
})
