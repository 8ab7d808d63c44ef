import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { entryOf } from '../entry-data.ts'
import { everyWrittenStep } from '../every-step.ts'

/** Work with flame, arc or sparks, as an instruction says it: the verb stands first, or after "and". */
const flame =
  /(?:^|[.,;:]\s+|\b(?:and|then)\s+)(?:weld|braze|gouge|flame-?cut|arc-?gouge|grind (?:off|out|away|through))\b|\bwith (?:the|a|an) (?:\w+ )?(?:torch|angle grinder|disc cutter)\b|\blight the torch\b/i

/** What is told in words only, nobody asks for a permit, a watch and an extinguisher. */
export const hotWorkInWordsOnly: Check = {
  name: 'hot-work/told-in-words-only',
  severity: 'warning',
  title: 'A step works with flame or sparks and is not written as hot work.',
  rules: ['HW-01', 'HW-02', 'HW-03', 'HW-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step, phase } of everyWrittenStep(procedure)) {
      const words = [step.text, ...step.acts.map((act) => act.text)].map((text) => text.plain)
      const said = words.map((text) => flame.exec(text)?.[0]).find((found) => found !== undefined)
      if (said === undefined || entryOf(step, 'hot-work') || entryOf(phase, 'hot-work')) continue
      yield {
        at: step.at,
        message: `Step ${step.number} says "${said.replace(/^[.,;:\s]+/, '').trim()}" and is not written as hot work, so nobody asks for permit, watch and extinguisher.`,
        advice:
          'Write it in the block of the step: hot-work: { method: …, extinguisher: […], watch: { by: …, for: min 60 min }, distance: min 11 m }',
      }
    }
  },
}
