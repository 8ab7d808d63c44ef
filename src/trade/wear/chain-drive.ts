import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, one, rational, roundUp, subtract } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { fromNumber, pi, squared, toNumber } from '../binary.ts'
import { makeCalculator } from '../make-calculator.ts'

/** Chain drives: sag, length, sprockets. Lengths in one unit. */

const lengthUnits = ['mm', 'in'] as const

export const chainSlack = makeCalculator({
  name: 'chain-slack',
  what: 'Sag of the slack span of a chain drive.',
  formula: '4 % to 6 % of the span between centres',
  validity: 'Horizontal drives; steep, fast or reversing ones run with half of it (common practice).',
  source: 'Chain drive maintenance page of the trade (4 to 6 %)',
  inputs: { span: { what: 'span between centres', kind: 'length', unit: 'mm' } },
  work: ({ span }) => ({
    ok: true,
    figures: [
      {
        name: 'slack-min',
        what: 'least sag',
        kind: 'length',
        units: lengthUnits,
        value: multiply(span, rational(4n, 100n)),
        digits: 3,
      },
      {
        name: 'slack-max',
        what: 'largest sag',
        kind: 'length',
        units: lengthUnits,
        value: multiply(span, rational(6n, 100n)),
        digits: 3,
      },
    ],
  }),
})

/** L = 2C + (z₁ + z₂)/2 + ((z₂ − z₁)/2π)²/C in pitches; good to a hundredth of a pitch for C of 30 to 50. */
export function chainPitches(centres: Rational, small: Rational, large: Rational): Rational {
  const around = divide(add(small, large), rational(2))
  const leaning = squared(divide(subtract(large, small), multiply(rational(2), pi)))
  return add(add(multiply(rational(2), centres), around), divide(leaning, centres))
}

export const chainLength = makeCalculator({
  name: 'chain-length',
  what: 'Links of a chain for two sprockets and their centres.',
  formula: 'L = 2C + (z₁ + z₂)/2 + ((z₂ − z₁)/2π)² / C, in pitches; then the next even number',
  validity: 'Two sprockets that do not touch. An odd count needs an offset (half) link, which weakens the chain.',
  source: 'Chain length formula of makers’ design pages; ASME B29.1 chain',
  inputs: {
    pitch: { what: 'pitch', kind: 'length', unit: 'in', symbol: 'p' },
    'teeth-one': { what: 'teeth of one sprocket', kind: 'number', symbol: 'z₁' },
    'teeth-two': { what: 'teeth of the other', kind: 'number', symbol: 'z₂' },
    centres: { what: 'distance between centres', kind: 'length', unit: 'in', symbol: 'C·p' },
  },
  work: (given) => {
    const { pitch, centres } = given
    const [first, second] = [given['teeth-one'], given['teeth-two']]
    if (first.denominator !== 1n || second.denominator !== 1n)
      return refuse('teeth-one', 'Teeth come in whole numbers.', 'Count them once more.')
    const inPitches = divide(centres, pitch)
    // Pitch circles are about z/2π pitches in radius.
    if (compare(multiply(inPitches, multiply(rational(2), pi)), add(first, second)) < 0)
      return refuse('centres', 'The sprockets would touch.', 'Look at centres, pitch and teeth once more.')
    const pitches = chainPitches(inPitches, first, second)
    const isRounded = compare(first, second) !== 0
    const even = roundUp(pitches, rational(2))
    const whole = roundUp(pitches, one)
    return {
      ok: true,
      figures: [
        { name: 'centre-pitches', what: 'centres in pitches', kind: 'number', value: inPitches },
        {
          name: 'pitches',
          what: 'length in pitches',
          kind: 'number',
          value: pitches,
          ...(isRounded ? { isRounded: true } : {}),
        },
        { name: 'links', what: 'links, even', kind: 'number', value: even },
        {
          name: 'length',
          what: 'length of the chain',
          kind: 'length',
          units: lengthUnits,
          value: multiply(even, pitch),
        },
        { name: 'half-link', what: 'half link would fit closer', word: compare(whole, even) < 0 ? 'yes' : 'no' },
      ],
    }
  },
})

export const sprocketDiameter = makeCalculator({
  name: 'sprocket-diameter',
  what: 'Pitch circle diameter of a sprocket.',
  formula: 'd = p / sin(180° / z)',
  validity: 'Three teeth or more.',
  source: 'Geometry of the polygon; makers’ design pages',
  inputs: {
    pitch: { what: 'pitch', kind: 'length', unit: 'mm', symbol: 'p' },
    teeth: { what: 'teeth', kind: 'number', symbol: 'z' },
  },
  work: ({ pitch, teeth }) => {
    if (teeth.denominator !== 1n || compare(teeth, rational(3)) < 0)
      return refuse('teeth', 'That is no sprocket.', 'Give three teeth or more, a whole number.')
    const value = divide(pitch, fromNumber(Math.sin(Math.PI / toNumber(teeth))))
    return {
      ok: true,
      figures: [
        {
          name: 'pitch-diameter',
          what: 'pitch circle diameter',
          kind: 'length',
          units: lengthUnits,
          value,
          isRounded: true,
        },
      ],
    }
  },
})

export const chainPitch = makeCalculator({
  name: 'chain-pitch',
  what: 'Pitch of a roller chain by its number.',
  formula: 'all digits but the last are the pitch in eighths of an inch',
  validity: 'ASME (ANSI) B29.1 numbers 25 to 240: last digit 0 usual, 1 light, 5 without rollers.',
  source: 'ASME B29.1 numbering (makers’ tables of ANSI sizes)',
  inputs: { chain: { what: 'chain number, such as 40 or 60', kind: 'number' } },
  work: ({ chain }) => {
    const number = chain.numerator
    if (chain.denominator !== 1n || number < 25n || number > 240n || ![0n, 1n, 5n].includes(number % 10n))
      return refuse(
        'chain',
        'That is no chain number of ASME B29.1.',
        'Give a number such as 25, 35, 40, 41, 50, 60, 80 or 100.',
      )
    const value = multiply(rational(number / 10n, 8n), rational(254n, 10_000n))
    return { ok: true, figures: [{ name: 'pitch', what: 'pitch', kind: 'length', units: ['in'], value }] }
  },
})
