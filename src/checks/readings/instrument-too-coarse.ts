import type { Fault } from '../../findings/finding.ts'
import type { Resource } from '../../model/resources.ts'
import type { Check, CheckSubject } from '../check.ts'
import { whyTooCoarse } from '../coarse-scale.ts'
import { everyInstrumentUse, instrumentData, resolutionIn, stepsWanted } from '../instruments.ts'

/**
 * A scale whose steps are as wide as the limit cannot tell good from bad.
 *
 *     0.10 to 0.20 mm with steps of 0.05 mm   ← reported: two steps in the band
 *     0.10 to 0.20 mm with steps of 0.01 mm   ten
 *     max 0.125 mm    with steps of 0.05 mm   ← reported: 0.125 is no step of it, and there are only two up to it
 */
export const instrumentTooCoarse: Check = {
  name: 'readings/instrument-too-coarse',
  severity: 'warning',
  title: 'The steps of the instrument are too wide for the limit.',
  rules: ['NU-11'],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    for (const use of everyInstrumentUse(procedure)) {
      for (const tool of use.tools) {
        const step = resolutionIn(instrumentData(tool), use.limit.unit)
        if (step === null) continue
        const why = whyTooCoarse(use, step, stepsWanted(configuration))
        if (why === null) continue
        yield {
          at: use.at,
          message: `"${use.name}" asks for ${use.limit.typed}, but ${tool.id} reads in steps of ${stepText(tool)}: ${why}.`,
          advice: 'Name an instrument with finer steps, or correct its resolution.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}

const stepText = (tool: Resource): string => tool.facts.find((fact) => fact.name === 'resolution')?.text ?? ''
