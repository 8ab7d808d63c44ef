import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyLoadedFastener } from '../fastener-load.ts'
import { fastenerText, percentText, takesText } from '../fastener-text.ts'

/** Past its proof load a bolt stays stretched: it has lost its clamp, and is next to breaking. */
export const aboveProof: Check = {
  name: 'torque/above-proof',
  severity: 'error',
  title: 'A torque stretches its fastener past its proof load, whatever the friction.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const loaded of everyLoadedFastener(procedure)) {
      if (loaded.load.is !== 'beyond-proof') continue
      const { torque, shareOfUpper } = loaded
      yield {
        at: torque.at,
        message: `"${torque.name}" goes up to ${percentText(shareOfUpper)} of the proof load of ${fastenerText(loaded)}: it stays stretched or breaks, even on a rough thread.`,
        advice: `${takesText(loaded)} Correct the torque, its unit, or the size and grade; where the maker turns the bolt past its proof load on purpose, write the turn as then-angle.`,
      }
    }
  },
}
