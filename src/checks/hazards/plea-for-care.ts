import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

/** What is left of a sentence once these are taken out is what it tells a person to do. */
const pleas =
  /\b(?:please|always|be (?:very |extra )?(?:careful|cautious|aware|alert)(?: (?:of|about) (?:it|this|the (?:danger|hazard)))?|(?:take|use|exercise|with) (?:great |extreme |due |proper |extra )?(?:care|caution)|pay attention|watch out|mind out|beware|work (?:safely|carefully)|stay (?:safe|alert|focused)|use common sense|at all times|as (?:appropriate|necessary|required|needed)|if necessary|take (?:all )?(?:the )?(?:necessary|appropriate|suitable|usual|normal) (?:precautions?|measures?|steps)|follow (?:all )?(?:the )?(?:safety|site) (?:rules|procedures|instructions)|wear (?:the )?(?:appropriate|suitable|proper|correct|necessary) (?:ppe|protective (?:equipment|clothing)|protection))\b/gi

/** "Be careful" tells nobody what to do with his hands. */
export const pleaForCare: Check = {
  name: 'hazards/plea-for-care',
  severity: 'warning',
  title: 'How to avoid a hazard is a plea to be careful, not something a person can do.',
  rules: ['SM-19'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, avoid, at } of procedure.hazards) {
      const rest = avoid.replace(pleas, ' ').replace(/\b(?:and|or|here|when working|when working here)\b/gi, ' ')
      if (rest === avoid || /\p{L}/u.test(rest)) continue
      yield {
        at,
        message: `Of the hazard "${id}" the reader is told only: "${avoid}"`,
        advice: 'Write under avoid what to do: a distance, a place to stand, a guard, a tool, a value.',
      }
    }
  },
}
