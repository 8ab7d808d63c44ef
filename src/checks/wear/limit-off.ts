import type { Fault } from '../../findings/finding.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import { limitAgainstWear } from '../../model/wear/wear-study.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWear } from '../wears.ts'

/** A limit beyond what wear allows lets a worn chain run; one below the new length throws a new chain away. */
export const wearLimitOff: Check = {
  name: 'wear/limit-off',
  severity: 'warning',
  title: 'The limit of a reading does not fit what its wear allows.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study } of everyWear(procedure)) {
      const { chain, belt, reading, name } = study
      const typed = reading?.limit?.typed
      const unit = reading?.limit?.unit
      const verdict = limitAgainstWear(study)
      if (verdict === null || typed === undefined || unit === undefined) continue
      const length = (value: Parameters<typeof shown>[0], rounding?: 'down') => shown(value, unit, 5, rounding)
      if (verdict === 'off' && belt) {
        yield {
          at: study.at,
          message: `"${name}" is to be ${typed}, and a belt with a span of ${belt.span} gives by ${length(belt.deflection)}, 1/64 of it.`,
          advice: 'Correct the limit or the span; where the maker asks for another deflection, say so with accept.',
        }
      } else if (chain) {
        const worn = `${length(chain.wornLength, 'down')}, ${shown(chain.share, '%', 3, 'down')} longer than new`
        yield {
          at: study.at,
          message:
            verdict === 'lets-it-wear'
              ? `"${name}" may be ${typed}, and ${chain.pitches} pitches of ${chain.pitch} are worn out at ${worn}.`
              : `"${name}" may be ${typed}, and ${chain.pitches} pitches of ${chain.pitch} measure ${length(chain.newLength)} when new.`,
          advice:
            verdict === 'lets-it-wear'
              ? `Write max ${length(chain.wornLength, 'down')}, or correct pitch, pitches or teeth.`
              : 'Correct the limit, the pitch or the number of pitches: N pitches span N + 1 pins.',
        }
      }
    }
  },
}
