import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyStep } from '../every-step.ts'
import { wordsOfStep } from '../job-words.ts'

const tells =
  /\b(?:tell|tells|told|inform|informs|informed|notif\w+|announc\w+|radio|warn|warns|warned|call out|sound the horn|let .{1,40} know)\b/i

/** Those who use the machine wonder why it does not start, and then why it does. */
export const peopleNotTold: Check = {
  name: 'lockout/people-not-told',
  severity: 'advice',
  title: 'The people who use the machine are not told before it is locked, or before it runs again.',
  rules: ['LO-07'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyStep(procedure).map(({ step }) => step)
    const first = steps.findIndex(({ locks }) => locks.length > 0)
    const last = steps.findLastIndex(({ unlocks }) => unlocks.length > 0)
    const back = steps.findIndex((step, index) => index >= last && bringsBack(step, procedure))
    // A job that ends locked, or is about the locking alone, has nobody to tell yet.
    if (first === -1 || last <= first || back === -1) return
    const lockers = new Set(steps.flatMap((step) => (step.locks.length > 0 ? doersOf(step) : [])))
    const isOthers = (step: Step) => doersOf(step).some((role) => !lockers.has(role))
    const before = steps.slice(0, first + 1)
    if (!before.some((step) => tells.test(wordsOfStep(step)) || isOthers(step)))
      yield {
        at: steps[first]?.at ?? procedure.document.at,
        message: `Step ${steps[first]?.number} locks, and nobody is told before that the machine stops for work.`,
        advice: 'Add a step before it: Tell the control room that the machine stops for work.',
      }
    // From the work to the start: who looks it over and signs, knows.
    const towards = steps.slice(Math.max(0, last - 2))
    if (
      !towards.some(
        (step) => tells.test(wordsOfStep(step)) || isOthers(step) || step.holds.some(({ role }) => !lockers.has(role)),
      )
    )
      yield {
        at: steps[back]?.at ?? procedure.document.at,
        message: `Step ${steps[back]?.number} brings the energy back, and nobody is told that the locks are off and it starts.`,
        advice:
          back === last
            ? 'Make two steps of it, the locks and the energy, with one between: Tell the control room that the machine starts.'
            : 'Add a step between the unlocking and this one: Tell the control room that the machine starts.',
      }
  },
}

function bringsBack({ sets }: Step, { states }: Procedure): boolean {
  return sets.some(({ state, values }) => {
    const known = states.find(({ id, name }) => id === state || name === state)
    const isPower = known?.energy === 'electrical' || known?.energy === 'motion'
    return isPower && known.safe.length > 0 && values.some((value) => !known.safe.includes(value))
  })
}
