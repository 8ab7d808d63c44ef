import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, one, rational, subtract } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { fromNumber, squared, toNumber } from '../binary.ts'
import { makeCalculator } from '../make-calculator.ts'

/** Liquid under pressure: what it gives when it is let off. SI units. */

const energyUnits = ['J', 'ft·lbf'] as const

/** Bulk modulus of petroleum oil that gives 0.5 % for 1000 psi (common practice; 0.4 to 0.5 % in trade texts). */
const oilShrink = rational(5n, 1000n)
const thousandPsi = multiply(
  rational(1000),
  divide(multiply(rational(45359237n, 100_000_000n), rational(980665n, 100_000n)), squared(rational(254n, 10_000n))),
)

/** B of petroleum oil. */
export const oilModulus = divide(thousandPsi, oilShrink)

/** ΔV = V · p / B */
export function compressedVolume(volume: Rational, pressure: Rational, modulus: Rational): Rational {
  return divide(multiply(volume, pressure), modulus)
}

/** E = p² · V / (2 · B) */
export function liquidEnergy(volume: Rational, pressure: Rational, modulus: Rational): Rational {
  return divide(compressedVolume(volume, squared(pressure), modulus), rational(2))
}

export const oilCompression = makeCalculator({
  name: 'oil-compression',
  what: 'How much pressed liquid gives when it is let off, and its energy.',
  formula: 'ΔV = V · p / B; E = p² · V / (2 · B)',
  validity:
    'Liquid without air, to about 5000 psi. Without B: petroleum oil, 0.5 % for 1000 psi. Hoses and air in the oil add to it.',
  source: 'Definition of the bulk modulus; 0.5 % for 1000 psi: common practice',
  inputs: {
    volume: { what: 'volume under pressure', kind: 'volume', unit: 'L', symbol: 'V' },
    pressure: { what: 'gauge pressure', kind: 'pressure', unit: 'bar', symbol: 'p' },
    'bulk-modulus': { what: 'bulk modulus of the liquid', kind: 'pressure', unit: 'MPa', symbol: 'B', optional: true },
  },
  work: ({ volume, pressure, 'bulk-modulus': modulus }) => {
    const stiffness = modulus ?? oilModulus
    return {
      ok: true,
      figures: [
        {
          name: 'let-off',
          what: 'volume that comes out',
          kind: 'volume',
          units: ['L', 'US gal'],
          value: compressedVolume(volume, pressure, stiffness),
          digits: 3,
        },
        {
          name: 'energy',
          what: 'energy',
          kind: 'energy',
          units: energyUnits,
          value: liquidEnergy(volume, pressure, stiffness),
          digits: 3,
        },
      ],
    }
  },
})

export const accumulatorOil = makeCalculator({
  name: 'accumulator-oil',
  what: 'Gas volume and oil taken in by an accumulator.',
  formula: 'slow: p₁ · V₁ = p₂ · V₂; quick: p₁ · V₁ⁿ = p₂ · V₂ⁿ; oil = V₁ − V₂',
  validity: 'Absolute pressures, p₂ not below p₁. n is 1 for slow filling and 1.4 for quick filling with nitrogen.',
  source: 'Boyle’s law; polytropic relation (textbook)',
  inputs: {
    'precharge-absolute': { what: 'absolute pressure of the pre-charge', kind: 'pressure', unit: 'bar', symbol: 'p₁' },
    volume: { what: 'gas volume at the pre-charge', kind: 'volume', unit: 'L', symbol: 'V₁' },
    'system-absolute': { what: 'absolute pressure of the system', kind: 'pressure', unit: 'bar', symbol: 'p₂' },
    exponent: { what: 'exponent n, 1 where not given', kind: 'number', symbol: 'n', optional: true },
  },
  work: ({ 'precharge-absolute': first, volume, 'system-absolute': second, exponent }) => {
    if (compare(second, first) < 0)
      return refuse(
        'system-absolute',
        'The system is below the pre-charge: the accumulator holds no oil.',
        'Look at both pressures once more.',
      )
    if (exponent !== null && compare(exponent, one) < 0)
      return refuse('exponent', 'The exponent is below 1.', 'Give 1 for slow, 1.4 for quick filling.')
    const ratio = divide(first, second)
    const isSlow = exponent === null || compare(exponent, one) === 0
    const gas = multiply(volume, isSlow ? ratio : fromNumber(toNumber(ratio) ** (1 / toNumber(exponent))))
    const shared = {
      kind: 'volume',
      units: ['L', 'US gal'],
      digits: 4,
      ...(isSlow ? {} : { isRounded: true as const }),
    } as const
    return {
      ok: true,
      figures: [
        { name: 'gas-volume', what: 'gas volume', value: gas, ...shared },
        { name: 'oil', what: 'oil in the accumulator', value: subtract(volume, gas), ...shared },
      ],
      notes: ['Caution: that oil comes back under pressure. Drain the accumulator before the circuit is opened.'],
    }
  },
})
