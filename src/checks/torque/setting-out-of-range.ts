import type { Fault } from '../../findings/finding.ts'
import { endsOfTorque, factOf } from '../../model/passes/torque-facts.ts'
import { extensionOf, runningTorqueOf, settingFor } from '../../model/passes/torque-setting.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import type { Torque } from '../../model/readings.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { toolsNamed } from '../instruments.ts'
import { isAboveRange, isBelowRange } from '../wrench-range.ts'

/** 650 N·m through an extension may be well within a wrench to 600 N·m, and 590 N·m with running torque on top may not. */
export const settingOutOfRange: Check = {
  name: 'torque/setting-out-of-range',
  severity: 'error',
  title: 'What the wrench must be set to lies outside its range, once extension and running torque are counted.',
  rules: ['NU-09'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const band = settingBand(torque)
        if (band === null) continue
        for (const tool of toolsNamed(procedure, torque.tool)) {
          const isAbove = isAboveRange(tool, band.high)
          if (!isAbove && !isBelowRange(tool, band.low)) continue
          yield {
            at: torque.at,
            message: `"${torque.name}" needs a setting of ${shown(isAbove ? band.high : band.low, torque.limit.unit, 4)} on ${tool.id}, which ${isAbove ? 'does not go so far' : 'does not begin so low'}.`,
            advice: 'Take another wrench or extension, or correct the range.',
            related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
          }
        }
      }
    }
  },
}

/** Null where the setting is the torque itself, or only the bench knows it. */
function settingBand(torque: Torque): { readonly low: Rational; readonly high: Rational } | null {
  const ends = endsOfTorque(torque)
  const addedTo = factOf(torque, 'added to')
  const running = runningTorqueOf(torque)
  const typedExtension = factOf(torque, 'extension')
  const extension = extensionOf(torque)
  if (ends === null || (addedTo === null && typedExtension === null)) return null
  // A length or a running torque that nobody knows leaves the setting open.
  if ((addedTo !== null && running === null) || (typedExtension !== null && extension === null)) return null
  return { low: settingFor(ends.low, running, extension), high: settingFor(ends.high, running, extension) }
}
