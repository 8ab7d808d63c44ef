import type { Fault } from '../../findings/finding.ts'
import { convertValue } from '../../quantities/convert.ts'
import type { Limit } from '../../quantities/quantity-types.ts'
import { compare } from '../../quantities/rational.ts'
import { combustiblesRadius } from '../../trade/thresholds/hot-work.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyHotWork, limitOf } from '../hot-works.ts'

const shields = /\b(?:shield|screen|blanket|curtain|wet(?:ted)? down|cover(?:s|ed)?)\b/i

/** Sparks fly and roll further than anyone believes. */
export const combustiblesNear: Check = {
  name: 'hot-work/combustibles-near',
  severity: 'error',
  title: 'How far things that burn are kept from hot work is not said, or is too near with nothing shielded.',
  rules: ['HW-02'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { where, data, words, at } of everyHotWork(procedure)) {
      const distance = limitOf(data, 'distance')
      if (distance === null) {
        yield {
          at,
          message: `${where} does not say how far from the work everything that burns is cleared away.`,
          advice:
            'Write distance: min 11 m, and say in a step how gaps in the floor and the far side of walls are covered.',
        }
      } else if (isTooNear(distance) && !shields.test(words)) {
        yield {
          at,
          message: `${where} keeps things that burn ${distance.typed} away; sparks reach 35 ft (10.7 m).`,
          advice: 'Write distance: min 11 m, or a step that shields what cannot be moved.',
        }
      }
    }
  },
}

function isTooNear({ lower, unit }: Limit): boolean {
  const radius = combustiblesRadius()
  if (!radius.ok) return false
  if (lower === null) return true
  const inUnit = convertValue(radius.value.value, radius.value.unit, unit)
  return inUnit.ok && compare(lower.value, inUnit.value) < 0
}
