import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { textIn } from '../entry-data.ts'
import { wordsOfJob } from '../job-words.ts'
import { everyLift } from '../lifts.ts'

const padded = /\b(?:pad|pads|padded|padding|edges?|corners?|sleeves?|softeners?|timber)\b/i

/** A sling that goes round the load lies on its edges. */
export const edgesUnpadded: Check = {
  name: 'lifting/edges-unpadded',
  severity: 'advice',
  title: 'A sling goes round the load, and nothing is said of its edges.',
  rules: ['LI-09'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const gear = procedure.resources.gear.map(({ id, name }) => `${id} ${name}`).join('\n')
    if (padded.test(`${wordsOfJob(procedure)}\n${gear}`)) return
    for (const { name, data, step, at } of everyLift(procedure)) {
      const hitch = textIn(data, 'hitch')
      if (hitch !== 'basket' && hitch !== 'choke') continue
      yield {
        at,
        message: `The sling goes round "${name}" in a ${hitch} hitch in step ${step.number}, and nothing is said of sharp edges.`,
        advice: 'Say in the step that edge pads are put under the sling, or that the load has no sharp edge.',
      }
    }
  },
}
