import type { Fault } from '../../findings/finding.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { toBase } from '../../quantities/convert.ts'
import { compare, divide, rational } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** The site has drawn its own line for one person. */
export const aboveSiteLimit: Check = {
  name: 'handling/above-site-limit',
  severity: 'warning',
  title: 'One person lifts more by hand than the site allows.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    const most = configuration.thresholds?.handLift
    const unit = most && unitBySymbol(most.unit)
    if (!most || unit?.kind !== 'mass') return
    const limit = toBase(most.value, unit)
    for (const { block, weight, people } of loadsOf(procedure).handlings) {
      if (weight === null) continue
      const share = divide(weight.most, rational(people))
      if (compare(share, limit) <= 0) continue
      const each = people === 1 ? 'for one person' : `for each of ${people} people`
      yield {
        at: block.at,
        message: `"${block.name}" is up to ${shown(share, weight.unit, 3, 'up')} ${each}, and this site allows ${most.typed}.`,
        advice: 'Let more people lift it (`by 2`), use a hoist, or take it apart.',
      }
    }
  },
}
