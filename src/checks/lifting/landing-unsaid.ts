import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { textIn } from '../entry-data.ts'
import { everyWrittenStep } from '../every-step.ts'
import { wordsOfStepAndBelow } from '../job-words.ts'
import { everyLift } from '../lifts.ts'

const lands =
  /\b(?:land|lands|lay|lays|set\b[^.]{0,40}\b(?:down|back|on)|down (?:to|on)|lower|lowers|carry|put|place|fit|seat|slide|bring)\b|\bon(?:to| to)? (?:the |its |their )?(?:stand|stands|timber|trestle|trestles|floor|truck|bench|pallet|bed|cradle|rack|base)\b/i

/** A load without a place to go hangs while somebody looks for one. */
export const landingUnsaid: Check = {
  name: 'lifting/landing-unsaid',
  severity: 'advice',
  title: 'A load is lifted, and nothing says where it is landed.',
  rules: ['LI-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyWrittenStep(procedure).map(({ step }) => step)
    const order = new Map(steps.map(({ id }, index) => [id, index]))
    const lastLanding = steps.findLastIndex((step) => lands.test(wordsOfStepAndBelow(step)))
    // What holds a part that is a state is followed on every way.
    const held = new Set(procedure.states.flatMap(({ name, heldBy }) => (heldBy.length > 0 ? [name] : [])))
    for (const { name, data, step, at } of everyLift(procedure)) {
      if (textIn(data, 'path') !== null || held.has(name)) continue
      if ((order.get(step.id) ?? 0) <= lastLanding) continue
      yield {
        at,
        message: `"${name}" is lifted in step ${step.number}, and nothing says where it is landed.`,
        advice: `Say where it goes, path: …, and give it a state that ends in landed; held-by tells what carries it at every moment.`,
      }
    }
  },
}
