import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, isZero, multiply, rational, zero } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { refuse } from '../answer.ts'
import { fromNumber, pi, toNumber } from '../binary.ts'
import { makeCalculator } from '../make-calculator.ts'

/**
 * Part of an extension that lengthens the wrench: A · cos θ, θ in turns from straight ahead. Exact at 0°, 90° and 180°,
 * otherwise to 15 digits.
 */
export function lengthening(extension: Rational, angle: Rational): Rational {
  if (isZero(angle)) return extension
  const quarters = multiply(angle, rational(4))
  if (quarters.denominator === 1n) {
    const turned = ((quarters.numerator % 4n) + 4n) % 4n
    if (turned === 0n) return extension
    return turned === 2n ? multiply(extension, rational(-1)) : zero
  }
  return multiply(extension, fromNumber(Math.cos(toNumber(multiply(multiply(rational(2), pi), angle)))))
}

/** Setting S = T · L / (L + A). Exact; all lengths in one unit; L + A must be above 0. */
export function wrenchSetting(torque: Rational, length: Rational, added: Rational): Rational {
  return divide(multiply(torque, length), add(length, added))
}

/** T = S · (L + A) / L */
export function torqueDelivered(setting: Rational, length: Rational, added: Rational): Rational {
  return divide(multiply(setting, add(length, added)), length)
}

export const wrenchExtension = makeCalculator({
  name: 'wrench-extension',
  what: 'Setting of a torque wrench with an extension or adapter on its drive, or the torque a setting makes.',
  formula: 'S = T · L / (L + A · cos θ); T = S · (L + A · cos θ) / L',
  validity:
    'Pull at the middle of the grip, square to the wrench. L from the middle of the grip to the drive, A from the drive to the bolt; A negative or θ above 90° where the adapter points back. At 90° the setting is the torque.',
  source:
    'TM 1-1500-204-23-9, 8-5, fig. 8-16; TM 9-254, fig. 45; NAVEDTRA 14315, fig. 3-45; FAA AC 43.13-1B, fig. 7-2; at an angle: the projected length (common practice)',
  inputs: {
    torque: { what: 'torque wanted at the bolt', kind: 'torque', unit: 'N·m', symbol: 'T', optional: true },
    setting: { what: 'setting or reading of the wrench', kind: 'torque', unit: 'N·m', symbol: 'S', optional: true },
    'wrench-length': { what: 'from the middle of the grip to the drive', kind: 'length', unit: 'mm', symbol: 'L' },
    extension: {
      what: 'from the drive to the bolt, negative where it shortens',
      kind: 'length',
      unit: 'mm',
      symbol: 'A',
      sign: 'any',
    },
    angle: {
      what: 'angle of the extension from straight ahead',
      kind: 'angle',
      unit: '°',
      symbol: 'θ',
      optional: true,
      sign: 'any',
    },
  },
  work: ({ torque, setting, 'wrench-length': length, extension, angle }) => {
    const added = lengthening(extension, angle ?? zero)
    const isRounded = angle !== null && multiply(angle, rational(4)).denominator !== 1n
    if (compare(add(length, added), zero) <= 0)
      return refuse(
        'extension',
        'The extension points back past the grip.',
        'Look at wrench-length, extension and angle once more.',
      )
    const shared = { kind: 'torque', units: ['N·m', 'lbf·ft'], digits: 4, ...(isRounded ? { isRounded } : {}) } as const
    if (torque !== null && setting === null) {
      const value = wrenchSetting(torque, length, added)
      return { ok: true, figures: [{ name: 'setting', what: 'setting of the wrench', value, ...shared }] }
    }
    if (setting !== null && torque === null) {
      const value = torqueDelivered(setting, length, added)
      return { ok: true, figures: [{ name: 'torque', what: 'torque at the bolt', value, ...shared }] }
    }
    return refuse(
      'torque',
      'It is not clear what is wanted.',
      'Give torque to get the setting, or setting to get the torque, and not both.',
    )
  },
})

const lowestPart = rational(20n, 100n)
const highestPart = rational(80n, 100n)

/** Whether a torque lies in the working part of the scale, 20 to 80 % of full scale, ends included. */
export function isInWorkingRange(torque: Rational, fullScale: Rational): boolean {
  const part = divide(torque, fullScale)
  return compare(part, lowestPart) >= 0 && compare(part, highestPart) <= 0
}

export const wrenchRange = makeCalculator({
  name: 'wrench-range',
  what: 'Whether a torque lies in the working part of a wrench’s scale.',
  formula: '0.2 · full scale ≤ T ≤ 0.8 · full scale',
  validity: 'Ends included. The maker’s own working range holds where it is narrower.',
  source: 'MSFC-STD-486B, Threaded Fasteners, Torque Limits for, Nov 1992, 4.2 (calibrated every 30 days there)',
  inputs: {
    'full-scale': { what: 'full scale of the wrench', kind: 'torque', unit: 'N·m' },
    torque: { what: 'torque to be set', kind: 'torque', unit: 'N·m', symbol: 'T' },
  },
  work: ({ 'full-scale': fullScale, torque }) => {
    const shared = { kind: 'torque', units: ['N·m', 'lbf·ft'], digits: 4 } as const
    return {
      ok: true,
      figures: [
        { name: 'in-range', what: 'in the working part', word: isInWorkingRange(torque, fullScale) ? 'yes' : 'no' },
        { name: 'lowest', what: 'lowest torque', value: multiply(fullScale, lowestPart), rounding: 'up', ...shared },
        {
          name: 'highest',
          what: 'highest torque',
          value: multiply(fullScale, highestPart),
          rounding: 'down',
          ...shared,
        },
      ],
    }
  },
})

const largestGraduation = rational(10n, 100n)
/** Up to here a wrench in inch-pounds is at hand, which is held to 3 %; larger ones to 4 % of reading. */
const smallWrench = multiply(rational(100), unitBySymbol('lbf·in')?.factor ?? zero)

export const wrenchGraduation = makeCalculator({
  name: 'wrench-graduation',
  what: 'Whether a wrench is graduated finely enough for a torque, and how accurate it is to be.',
  formula: 'graduation ≤ 10 % of the torque; accuracy 3 % to 100 lbf·in, 4 % of reading above',
  validity: 'Wrenches to 1000 lbf·ft, from 20 % of full scale up; the most accurate part is 30 to 80 %.',
  source: 'TM 1-1500-204-23-9, 8-3 and table 8-1',
  inputs: {
    torque: { what: 'torque to be measured', kind: 'torque', unit: 'lbf·in', symbol: 'T' },
    graduation: { what: 'smallest graduation of the scale', kind: 'torque', unit: 'lbf·in' },
  },
  work: ({ torque, graduation }) => ({
    ok: true,
    figures: [
      {
        name: 'fine-enough',
        what: 'graduated finely enough',
        word: compare(graduation, multiply(torque, largestGraduation)) <= 0 ? 'yes' : 'no',
      },
      {
        name: 'accuracy',
        what: 'accuracy of the wrench',
        kind: 'ratio',
        units: ['%'],
        value: rational(compare(torque, smallWrench) <= 0 ? 3 : 4, 100),
      },
    ],
  }),
})
