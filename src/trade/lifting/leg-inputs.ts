import type { Rational } from '../../quantities/quantity-types.ts'
import { divide, multiply, rational } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import type { Figure } from '../make-calculator.ts'
import {
  type AngleConvention,
  angleOfRise,
  flattestAdvised,
  flattestAllowed,
  fromHorizontal,
  judgeAngle,
  riseFromLengths,
  riseOfLeg,
} from './sling-angle.ts'

/** What the calculators of sling legs have in common. */

export const turns = (degrees: Rational): Rational => divide(degrees, rational(360))
export const degrees = (inTurns: Rational): Rational => multiply(inTurns, rational(360))
export const weightUnits = ['kg', 'lb'] as const

const conventions = ['from-horizontal', 'from-vertical', 'included'] as const

export const angleInputs = {
  angle: { what: 'angle of the legs', kind: 'angle', unit: '°', symbol: 'a', optional: true },
  'angle-is': { what: 'how the angle is told', kind: 'word', choices: conventions, optional: true },
  length: { what: 'length of a leg', kind: 'length', unit: 'm', symbol: 'L', optional: true },
  height: {
    what: 'height of the hook above the hook-on points',
    kind: 'length',
    unit: 'm',
    symbol: 'H',
    optional: true,
  },
} as const

interface AngleGiven {
  readonly angle: Rational | null
  readonly 'angle-is': string | null
  readonly length: Rational | null
  readonly height: Rational | null
}

/** Rise of a leg and its angle in degrees, from an angle with its convention or from length and height: one of the two, not both. */
export function legOf(given: AngleGiven): Answer<{ readonly rise: Rational; readonly angle: Rational }> {
  const { angle, length, height } = given
  if ((angle === null) === (length === null && height === null))
    return refuse(
      'angle',
      'Angle or lengths: one of the two is needed.',
      'Give angle and angle-is, or length and height.',
    )
  if (angle !== null) {
    if (given['angle-is'] === null)
      return refuse('angle-is', 'The angle is not told from where.', `Choose one of: ${conventions.join(', ')}.`)
    const level = fromHorizontal(degrees(angle), given['angle-is'] as AngleConvention)
    return level.ok ? answer({ rise: riseOfLeg(level.value), angle: level.value }) : level
  }
  if (length === null || height === null)
    return refuse(length === null ? 'length' : 'height', 'Length and height are both needed.', 'Give both.')
  const rise = riseFromLengths(height, length)
  return rise.ok ? answer({ rise: rise.value, angle: angleOfRise(rise.value) }) : rise
}

export function angleNotes(angle: Rational): readonly string[] {
  const verdict = judgeAngle(angle)
  if (verdict === 'not allowed')
    return [
      `Flatter than ${flattestAllowed.name}: not allowed unless the maker or a qualified person says so (${flattestAllowed.source}).`,
    ]
  return verdict === 'allowed'
    ? []
    : [`Flatter than the ${flattestAdvised.name}: use longer slings where there is room.`]
}

export function angleFigures(name: string, what: string, angle: Rational): readonly Figure[] {
  return [
    { name, what, kind: 'angle', units: ['°'], value: turns(angle), isRounded: true },
    { name: `${name}-verdict`, what: `${what}, judged`, word: judgeAngle(angle) },
  ]
}
