import type { Fault } from '../../findings/finding.ts'
import { shown } from '../../model/passes/worked-figures.ts'
import type { Check, CheckSubject } from '../check.ts'
import { loadsOf } from '../loads.ts'

/** The hook comes to stand above the weight: with legs of one length the load swings and tilts until it does. */
export const legsAlikeOffCentre: Check = {
  name: 'lifting/legs-alike-off-centre',
  severity: 'warning',
  title: 'The weight is not in the middle, and both legs have the same length.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { block, offCentre } of loadsOf(procedure).lifts) {
      if (!offCentre?.hasLegsAlike) continue
      const [near, far] = [offCentre.near, offCentre.far].map(({ length }) => shown(length, 'm', 3))
      yield {
        at: block.at,
        message: `The weight of "${block.name}" sits ${offCentre.typed}, and both legs have one length: it will hang out of level.`,
        advice: `Shorten the leg nearer to the weight (level at about ${near} and ${far}), or write \`height\` in place of \`leg-length\`.`,
      }
    }
  },
}
