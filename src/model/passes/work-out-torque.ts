import { parseLimit } from '../../quantities/parse-limit.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { add, zero } from '../../quantities/rational.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Step } from '../procedure.ts'
import type { Torque } from '../readings.ts'
import type { Working } from '../working.ts'
import { factOf, quantityFrom, type TorqueWorking } from './torque-facts.ts'
import { preloadOf } from './torque-preload.ts'
import { roundsOf } from './torque-rounds.ts'
import { settingOf } from './torque-setting.ts'
import { shown, workedFigure } from './worked-figures.ts'

/** What the torques of a step come to: clamp, order and rounds, setting of the wrench, turning by angle. */
export function workOutTorques(step: Step): readonly Working[] {
  return step.torques.flatMap((torque) => workingsOf(torque).map((working) => named(torque, step.torques, working)))
}

const workingsOf = oncePer((torque: Torque): readonly TorqueWorking[] =>
  [preloadOf(torque), roundsOf(torque), settingOf(torque), anglesOf(torque)].flatMap((working) => working ?? []),
)

/** Two variants of one torque share its name: then the sentence says which it is for. */
function named(torque: Torque, all: readonly Torque[], working: TorqueWorking): Working {
  const isOneOfSeveral = all.filter(({ id }) => id === torque.id).length > 1
  const only = isOneOfSeveral && torque.only !== null ? `For ${torque.only.values.join(', ')}: ` : ''
  const of = torque.id.split('@')[0] ?? torque.id
  return { key: 'torque', of, ...working, says: only + working.says, at: torque.at }
}

/** The turns one after the other, in turns; null where one of them is no angle. */
export function angleSteps(torque: Torque): readonly Rational[] | null {
  const typed = factOf(torque, 'then angle')?.split(', ') ?? []
  const angles = typed.flatMap((each) => quantityFrom(each, 'angle') ?? [])
  return typed.length > 0 && angles.length === typed.length ? angles : null
}

export function sumOfAngles(angles: readonly Rational[]): Rational {
  return angles.reduce(add, zero)
}

/** The sum of further turning by angle. */
function anglesOf(torque: Torque): TorqueWorking | null {
  const angles = angleSteps(torque)
  if (angles === null || angles.length < 2) return null
  const sum = sumOfAngles(angles)
  const stated = factOf(torque, 'angle sum')
  const limit = stated === null ? null : parseLimit(stated)
  const beside = limit?.ok ? `, stated as ${stated}` : ''
  return {
    says: `Turned on by ${shown(sum, '°', 4)} in all${beside}.`,
    figures: [workedFigure({ name: 'angle-sum', kind: 'angle', unit: '°', value: sum, digits: 4 })],
    formula: 'sum = angle + angle + …',
    lines: [`${angles.map((angle) => shown(angle, '°', 4)).join(' + ')} = ${shown(sum, '°', 4)}`],
    source: 'Arithmetic; the angles are the author’s.',
    caution: 'Mark nut and part before turning. The maker’s angle holds for that joint only.',
  }
}
