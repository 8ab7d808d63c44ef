import type { Fault } from '../findings/finding.ts'
import type { HandleStudy } from '../model/loads/handle-study.ts'
import { shown, shownNumber } from '../model/passes/worked-figures.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { compare, divide, one, rational } from '../quantities/rational.ts'

type Heaviness = 'heavy' | 'too heavy'

const mostIndex = rational(3)

/**
 * What is wrong with a lift by hand of that class, or nothing. Without reach and heights only what holds in any case is told:
 * that an even share is more than the equation allows under the best conditions.
 */
export function heavyFault(study: HandleStudy, wanted: Heaviness): readonly Fault[] {
  const { block, weight, people, reach, bestForOne } = study
  if (weight === null) return []
  const mass = (value: Rational, rounding: 'up' | 'down') => shown(value, weight.unit, 3, rounding)
  const who = people === 1 ? 'one person' : `${people} people`
  if (reach === null) {
    const share = divide(weight.most, rational(people))
    const index = divide(share, bestForOne)
    if (classOf(index) !== wanted) return []
    return [
      {
        at: block.at,
        message: `"${block.name}" weighs up to ${mass(weight.most, 'up')} for ${who}: ${mass(share, 'up')} each, and ${mass(bestForOne, 'down')} is the most for one person under the best conditions.`,
        advice: `${more(people)} Or give reach, from-height and to-height, so that it can be worked out.`,
      },
    ]
  }
  if (reach.index === null)
    return wanted === 'too heavy'
      ? [
          {
            at: block.at,
            message: `"${block.name}" is lifted where no weight is right: reach, height, twist or pace is beyond the lifting equation.`,
            advice: 'Bring it closer, change the heights, lift less often, or use a hoist.',
          },
        ]
      : []
  if (classOf(reach.index) !== wanted) return []
  const enough = reach.needed === null ? 'Four people are not enough.' : `It needs ${reach.needed} people.`
  return [
    {
      at: block.at,
      message: `"${block.name}" weighs up to ${mass(weight.most, 'up')}, and ${who} may lift ${mass(reach.teamLimit, 'down')} there: lifting index ${shownNumber(reach.index, 3, 'up')}. ${enough}`,
      advice: `${more(people)} Or bring it closer, between knee and shoulder, without a twist.`,
    },
  ]
}

function more(people: number): string {
  return people === 1 ? 'Let two lift it, or use a hoist.' : 'Use a hoist or a trolley, or take it apart.'
}

function classOf(index: Rational): Heaviness | null {
  if (compare(index, one) <= 0) return null
  return compare(index, mostIndex) <= 0 ? 'heavy' : 'too heavy'
}
