import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { partIn } from '../entry-data.ts'
import { everyLift } from '../lifts.ts'

/** Two legs can be hooked on in more than one way; one of them is right. */
export const sketchMissing: Check = {
  name: 'lifting/sketch-missing',
  severity: 'advice',
  title: 'A load is lifted by several legs, and no figure shows how.',
  rules: ['LI-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const captions = procedure.figures.map(({ alt, caption }) => `${alt} ${caption}`.toLowerCase())
    const reported = new Set<string>()
    for (const { name, data, legs, step, at } of everyLift(procedure)) {
      const isPlain = legs < 2 && partIn(data, 'centre-of-gravity') === undefined
      const words = name.toLowerCase().split('-')
      const isShown = captions.some(
        (text) =>
          /\b(?:sling|leg|hook|lift|rigging|chain|hang)/.test(text) &&
          (words.some((word) => text.includes(word)) || captions.length === 1),
      )
      if (isPlain || isShown || reported.has(name)) continue
      reported.add(name)
      yield {
        at,
        message: `"${name}" hangs on ${legs < 2 ? 'a hook beside its middle' : `${legs} legs`} in step ${step.number}, and no figure shows where they are hooked in.`,
        advice:
          'Draw the load with its lifting points, legs, angle and centre of gravity: ![what it shows](figures/….svg "caption")',
      }
    }
  },
}
