import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

const kills = /\b(?:kills?|death|dies?|fatal|electrocut\w*|asphyxiat\w*|suffocat\w*|drowns?|buries)\b/i
const maims =
  /\b(?:amputat\w*|tears? off|cuts? off|severs?|loses? (?:an?|the|your) (?:eye|hand|arm|leg|finger|foot)|puts? out an eye|blinds?|breaks? (?:\w+ )?(?:bones?|arms?|legs?|backs?|necks?))\b/i
/** What happens to a person, where only damage is rated. */
const hurts =
  /\b(?:burns? (?:skin|hands?|faces?|you|whoever|people)|crush\w* (?:\w+ )?(?:hands?|fingers?|feet|foot|you|whoever|people)|cuts? (?:\w+ )?(?:hands?|fingers?|you|skin)|injur\w*|poison\w*|hits? (?:you|face|eyes|whoever|people))\b/i
/** `tears the skin off` is no limb. */
const skin = /\bskin\b/i

/** The signal word follows the rating, so a rating below the words prints a word below the danger. */
export const severityBelowWords: Check = {
  name: 'hazards/severity-below-words',
  severity: 'warning',
  title: 'A hazard is rated lower than what it says it does.',
  rules: ['SM-02'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, consequence, severity, signalWord, at } of procedure.hazards) {
      const least = leastFor(consequence)
      if (severity === '' || least === null || rank(severity) >= rank(least)) continue
      yield {
        at,
        message: `The hazard "${id}" says "${consequence}" and is rated ${severity}, so ${signalWord.toUpperCase()} is printed above it.`,
        advice: `Rate it by the worst that can credibly happen: severity: ${least}. Or correct the sentence.`,
      }
    }
  },
}

const order = ['damage', 'minor-injury', 'serious-injury', 'death']

const rank = (severity: string): number => (severity === 'death' ? 2 : order.indexOf(severity))

function leastFor(consequence: string): string | null {
  if (kills.test(consequence)) return 'death'
  if (maims.test(consequence) && !skin.test(consequence)) return 'serious-injury'
  return hurts.test(consequence) ? 'minor-injury' : null
}
