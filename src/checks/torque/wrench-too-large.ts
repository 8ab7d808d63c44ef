import type { Fault } from '../../findings/finding.ts'
import { endsOfTorque, roundsIn, type TorqueEnds } from '../../model/passes/torque-facts.ts'
import { extensionOf, runningTorqueOf, settingFor } from '../../model/passes/torque-setting.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import type { Torque } from '../../model/readings.ts'
import type { Resource } from '../../model/resources.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, multiply, rational } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { toolsNamed } from '../instruments.ts'
import { isBelowRange, wrenchRange } from '../wrench-range.ts'

/** A wrench to 1000 N·m is made to be a few percent of that off: 120 N·m on it is a guess, and a first round of 60 N·m cannot be set. */
export const wrenchTooLarge: Check = {
  name: 'torque/wrench-too-large',
  severity: 'warning',
  title: 'A torque is too low on the scale of its wrench, or a round cannot be set on it.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      for (const torque of step.torques) {
        const ends = endsOfTorque(torque)
        const [tool, ...others] = toolsNamed(procedure, torque.tool)
        // Of several wrenches the smaller may be for the first rounds.
        if (ends === null || tool === undefined || others.length > 0) continue
        const setting = settingFor(ends.low, runningTorqueOf(torque), extensionOf(torque))
        // Below its range it is told as out of range, and not again.
        if (isBelowRange(tool, setting)) continue
        const why = lowOnScale(setting, ends, tool) ?? roundNotSet(torque, ends, tool)
        if (why === null) continue
        yield {
          at: torque.at,
          message: `"${torque.name}" ${why}`,
          advice: 'Name a smaller wrench, or a second one for the first rounds: with tw-100 tw-600.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}

const workingPart = rational(20n, 100n)

function lowOnScale(setting: Rational, ends: TorqueEnds, tool: Resource): string | null {
  const high = wrenchRange(tool)?.high ?? null
  if (high === null) return null
  const lowest = multiply(high, workingPart)
  if (compare(setting, lowest) >= 0) return null
  const { unit } = ends
  return `is set to ${shown(setting, unit, 4)} on ${tool.id}, which goes to ${shown(high, unit, 4)}: below a fifth of its scale, ${shown(lowest, unit, 4)}, a wrench is not to be trusted.`
}

function roundNotSet(torque: Torque, ends: TorqueEnds, tool: Resource): string | null {
  const { unit } = ends
  for (const { share, says } of roundsIn(torque)) {
    const value: Rational | null = share && multiply(ends.middle, share)
    const setting = value && settingFor(value, runningTorqueOf(torque), extensionOf(torque))
    const isFull = share !== null && compare(share, rational(1n)) >= 0
    if (setting === null || isFull || !isBelowRange(tool, setting)) continue
    return `has a round of ${says}, which is ${shown(setting, unit, 4)} on ${tool.id}, and that begins only at ${shown(wrenchRange(tool)?.low ?? setting, unit, 4)}.`
  }
  return null
}
