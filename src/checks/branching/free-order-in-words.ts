import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { plainWords, proseWords } from '../every-text.ts'

const anyOrder =
  /\b(?:steps?|phases?)\b[^.!?]{0,60}?\b(?:in (?:any|whatever|either) order|in the order (?:you like|that suits)|whenever (?:you like|it suits))\b/i

/** An order that is free in words only is followed by nobody's proof. */
export const freeOrderInWords: Check = {
  name: 'branching/free-order-in-words',
  severity: 'warning',
  title: 'Words leave the order of steps free, and the steps are followed one after the other.',
  rules: ['BR-13'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const seen = new Set<string>()
    for (const phase of procedure.phases) {
      if (phase.together || seen.has(phase.baseId)) continue
      seen.add(phase.baseId)
      const said = phase.prose.flatMap(proseWords).find((text) => anyOrder.test(text))
      if (said !== undefined) yield fault(said, phase.at)
    }
    for (const { step, phase } of everyWrittenStep(procedure)) {
      if (phase.together || step.entries.some(({ key }) => key === 'together')) continue
      const texts = [plainWords(step.text.inlines), ...step.details.flatMap(proseWords)]
      const said = texts.find((text) => anyOrder.test(text))
      if (said !== undefined) yield fault(said, step.at)
    }
  },
}

function fault(said: string, at: Fault['at']): Fault {
  return {
    at,
    message: `"${anyOrder.exec(said)?.[0] ?? said}": no key says so, and only the written order was followed.`,
    advice:
      'Write together: yes at the phase, or together: [step-1, step-2] for some of its steps; every order is followed then.',
  }
}
