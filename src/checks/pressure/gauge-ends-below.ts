import type { Fault } from '../../findings/finding.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { highestPressure, pressureUnit } from '../../model/stored-energy/stored-study.ts'
import { compare } from '../../quantities/rational.ts'
import { betweenUnits } from '../../trade/between-units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { instrumentData, toolsNamed } from '../instruments.ts'
import { everyLetOut } from '../let-out.ts'

/** A gauge that was driven past its end sticks, bursts, or comes back to a zero that is none. */
export const gaugeEndsBelow: Check = {
  name: 'pressure/gauge-ends-below',
  severity: 'error',
  title: 'The gauge that is to show that a pressure is gone ends below that pressure.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study, step } of everyLetOut(procedure)) {
      const highest = highestPressure(study)
      const reading = study.gauge?.reading
      if (highest === null || !reading) continue
      for (const tool of toolsNamed(procedure, reading.instrument)) {
        const { range } = instrumentData(tool)
        if (range?.kind !== 'pressure' || range.upper === null) continue
        if (compare(betweenUnits(range.upper.value, range.unit, 'Pa'), highest) >= 0) continue
        const isBlocked = study.cylinder?.isBlocked === true && study.cylinder.ring !== null
        yield {
          at: study.at,
          message: `In step ${step.number} "${study.name}" ${isBlocked ? 'comes to' : 'is at'} up to ${shown(highest, pressureUnit(study), 3, 'up')}${isBlocked ? ' with its rod side blocked' : ''}, and ${tool.id} ends at ${shown(betweenUnits(range.upper.value, range.unit, 'Pa'), range.unit, 4)}.`,
          advice: 'Take a gauge that bears the full pressure and still reads the rest, or correct the pressure.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}
