import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { textIn } from '../entry-data.ts'
import { doersOf } from '../every-step.ts'
import { plainWords } from '../every-text.ts'
import { wordsOfStepAndBelow } from '../job-words.ts'
import { everyLift } from '../lifts.ts'

const directs = /\b(?:signals?|in charge|directs?|directed|commands?|gives the word|leads?)\b/i
/** A trade whose work it is. */
const leader = /\b(?:rigger|slinger|banksman|signaller|dogman|lift leader|in charge|leads)\b/i

/** Two people who both signal are one too many. */
export const nobodyDirects: Check = {
  name: 'lifting/nobody-directs',
  severity: 'warning',
  title: 'Several people lift, and nobody is in charge.',
  rules: ['LI-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const { roles } = procedure
    for (const { name, data, step, phase, at } of everyLift(procedure)) {
      const doers = doersOf(step)
      if (doers.length < 2 || textIn(data, 'directed') !== null) continue
      const opening = phase.prose
        .map((prose) => (prose.kind === 'paragraph' ? plainWords(prose.children) : ''))
        .join('\n')
      if (directs.test(`${wordsOfStepAndBelow(step)}\n${opening}`)) continue
      const leaders = doers.filter((id) =>
        leader.test(`${id.replaceAll('-', ' ')} ${roles.find((role) => role.id === id)?.who ?? ''}`),
      )
      if (leaders.length === 1) continue
      yield {
        at,
        message: `"${name}" is lifted in step ${step.number} by ${doers.join(' and ')}, and nothing says who is in charge and gives the signals.`,
        advice: `Name one: directed ${doers[0]}. Everybody may stop the lift; one person starts it.`,
      }
    }
  },
}
