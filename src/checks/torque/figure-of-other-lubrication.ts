import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyLoadedFastener } from '../fastener-load.ts'
import { fastenerText, percentText, usualText } from '../fastener-text.ts'

/**
 * Oil takes a quarter of the torque's work off the thread: a dry figure on an oiled bolt pulls a third too much.
 *
 *     305 to 325 N·m, M16 10.9, oiled   ← reported: at its proof load; the same figure is the usual one of a dry M16 10.9
 */
export const figureOfOtherLubrication: Check = {
  name: 'torque/figure-of-other-lubrication',
  severity: 'warning',
  title: 'A torque is the usual one of the same fastener with its thread dry, or oiled, and not as written.',
  rules: ['NU-20'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const loaded of everyLoadedFastener(procedure)) {
      if (loaded.load.is !== 'other-lubrication') continue
      const { torque, joint, shareOfMiddle } = loaded
      const isDry = joint.friction.state === 'dry'
      const [other, effect] = isDry ? ['oiled', 'clamps too little'] : ['dry', 'pulls too much']
      yield {
        at: torque.at,
        message: `"${torque.name}" asks for ${torque.limit.typed}, the usual torque of this fastener ${other}. ${fastenerText(loaded)}, it ${effect}: ${percentText(shareOfMiddle)} of its proof load.`,
        advice: `Type about ${usualText(joint, loaded)} for ${torque.lubrication}, or ${other} where the thread is.`,
      }
    }
  },
}
