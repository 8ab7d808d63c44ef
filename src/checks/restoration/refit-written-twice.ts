import type { Fault } from '../../findings/finding.ts'
import type { Step } from '../../model/procedure.ts'
import type { Torque } from '../../model/readings.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/**
 * A refit made by `reverse` and one written by hand side by side: the reader finds a thing in place that the step tells
 * him to fit, or two torques for the same bolts.
 */
export const refitWrittenTwice: Check = {
  name: 'restoration/refit-written-twice',
  severity: 'error',
  title: 'A refit that is made by reverse stands in the document a second time, written by hand.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const putBack = new Map<string, Step>()
    const tightened = new Map<string, { readonly step: Step; readonly torque: Torque }>()
    for (const { step } of everyStep(procedure)) {
      for (const { id, state, at } of putBacks(step, procedure.states)) {
        const earlier = putBack.get(state)
        const isMade = step.undoes !== null
        if (earlier !== undefined && (earlier.undoes !== null) !== isMade) {
          yield {
            at,
            message: `Step ${step.number} puts ${id} back, but step ${earlier.number} has done that already${isMade ? '; this one was made by reverse' : ', made by reverse'}.`,
            advice: `Keep one of the two: take ${id} out of the written step, or give the removal step undo: { by-hand: … }.`,
            related: [{ at: earlier.at, message: `Step ${earlier.number} stands here.` }],
          }
        }
        putBack.set(state, step)
      }
      // What comes off again may go back again.
      for (const state of undoneBy(step, procedure.states)) putBack.delete(state)
      for (const torque of step.torques) {
        const name = torque.id.split('@')[0] ?? torque.id
        const earlier = tightened.get(name)
        if (
          earlier !== undefined &&
          (earlier.step.undoes !== null) !== (step.undoes !== null) &&
          earlier.torque.limit.typed !== torque.limit.typed
        ) {
          yield {
            at: torque.at,
            message: `Step ${step.number} tightens ${name} to ${torque.limit.typed}, step ${earlier.step.number} to ${earlier.torque.limit.typed}; one of the two was made by reverse.`,
            advice: 'Give both the same value, or the second torque a name of its own.',
            related: [{ at: earlier.torque.at, message: `Step ${earlier.step.number} says so here.` }],
          }
        }
        tightened.set(name, { step, torque })
      }
    }
  },
}

interface PutBack {
  readonly id: string
  readonly state: string
  readonly at: Place
}

/** What a step puts back to where it was at the start. */
function putBacks(
  step: Step,
  states: readonly { readonly id: string; readonly name: string; readonly start: string }[],
): readonly PutBack[] {
  const things = [...step.refits, ...step.takesOff, ...step.unlocks].flatMap(({ id, at }) =>
    states.filter((state) => state.name === id || state.id === id).map((state) => ({ id, state: state.id, at })),
  )
  const changes = step.sets.flatMap(({ state, values, at }) => {
    const known = states.find((one) => one.id === state)
    return known !== undefined && values.at(-1) === known.start ? [{ id: state, state, at }] : []
  })
  return [...things, ...changes].filter(({ state }) => step.statesAfter[state] !== undefined)
}

function undoneBy(step: Step, states: readonly { readonly id: string; readonly start: string }[]): readonly string[] {
  return states.filter(({ id, start }) => (step.statesAfter[id] ?? start) !== start).map(({ id }) => id)
}
