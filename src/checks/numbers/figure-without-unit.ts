import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** What has no unit anywhere. */
const bareByNature =
  /(?:^|-)(?:ratio|factor|index|coefficient|number|count|ph|hardness|grade|class|code|turns|teeth|mark|setting|scale)(?:-|$)/i

/** "12 to 14" is read off whichever scale of the gauge is nearest. */
export const figureWithoutUnit: Check = {
  name: 'numbers/figure-without-unit',
  severity: 'advice',
  title: 'A reading has a limit without a unit.',
  rules: ['NU-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure))
      for (const { kind, name, limit, unit, at } of step.readings) {
        if (bareByNature.test(name)) continue
        if (limit === null || limit.unit !== '' || unit || (kind !== 'measure' && kind !== 'set')) continue
        yield {
          at,
          message: `The limit of "${name}" in step ${step.number} has no unit: ${limit.text}`,
          advice: 'Type the unit behind the figure, such as `mm`. A number of things is a `count`, a share is in `%`.',
        }
      }
  },
}
