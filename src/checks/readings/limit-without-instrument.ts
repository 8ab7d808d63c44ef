import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import type { Reading } from '../../model/readings.ts'
import { isSameScale } from '../../quantities/accuracy.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { instrumentData, toolsNamed } from '../instruments.ts'

/**
 * "0.10 to 0.20 mm", and the fitter takes what hangs nearest.
 *
 *     measure: { end-play: 0.10 to 0.20 mm }                          ← reported
 *     measure: { end-play: "0.10 to 0.20 mm, with dial-indicator" }
 */
export const limitWithoutInstrument: Check = {
  name: 'readings/limit-without-instrument',
  severity: 'warning',
  title: 'A figure is measured, and nothing says with what.',
  rules: ['NU-11'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const reading of step.readings) {
        const typed = limitNeedingInstrument(reading)
        if (typed === null || usesInstrumentFor(procedure, step, reading)) continue
        yield {
          at: reading.at,
          message: `"${reading.name}" has the limit ${typed}, but nothing says what it is read with.`,
          advice: `Name the instrument: \`${reading.name}: ${typed}, with …\`, and list it under tools.`,
        }
      }
    }
  },
}

/** A clock hangs on every wall, turns and things are counted by eye. */
const readByEye = ['time', 'number', '']

/** The limit as typed, where only an instrument can tell; null where none is needed, or one is named. */
function limitNeedingInstrument({ kind, limit, workedLimit, instrument }: Reading): string | null {
  if (instrument !== null || (kind !== 'measure' && kind !== 'set')) return null
  if (workedLimit !== undefined) return workedLimit.unit === '' ? null : workedLimit.typed
  if (limit === null || readByEye.includes(limit.kind)) return null
  const isTurns = limit.kind === 'angle' && limit.unit === 'turn'
  return isTurns ? null : limit.typed
}

/** Whether the step takes an instrument that reads such a figure, or one of which nobody wrote what it reads. */
function usesInstrumentFor(procedure: Procedure, step: Step, { limit }: Reading): boolean {
  return toolsNamed(procedure, step.uses.join(', ')).some((tool) => {
    if (!tool.isInstrument) return false
    const { range, resolution } = instrumentData(tool)
    const reads = range?.kind ?? resolution?.kind
    return reads === undefined || limit === null || isSameScale(reads, limit.kind)
  })
}
