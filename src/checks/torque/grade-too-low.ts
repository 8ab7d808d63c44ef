import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyLoadedFastener } from '../fastener-load.ts'
import { fastenerText, percentText, takesText } from '../fastener-text.ts'

/** The torque of a 10.9 on an 8.8: the bolt yields before the wrench clicks. */
export const gradeTooLow: Check = {
  name: 'torque/grade-too-low',
  severity: 'warning',
  title: 'A torque is more than its fastener takes in that grade.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const loaded of everyLoadedFastener(procedure)) {
      if (loaded.load.is !== 'too-much') continue
      const { torque, shareOfMiddle, load } = loaded
      const otherwise =
        load.stronger === null
          ? 'No usual grade takes it: look at the torque, its unit and the size.'
          : `A ${load.stronger.replace('SAE ', 'grade ')} would take it: look at the head of the bolt, then at the torque.`
      yield {
        at: torque.at,
        message: `"${torque.name}" asks for ${torque.limit.typed}, which is ${percentText(shareOfMiddle)} of the proof load of ${fastenerText(loaded)}.`,
        advice: `${takesText(loaded)} ${otherwise}`,
      }
    }
  },
}
