import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { State } from '../../model/states.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { wordsOfJob } from '../job-words.ts'

/** An isolator that is only off is turned on by the next one who needs it. */
export const energyWithoutLock: Check = {
  name: 'lockout/energy-without-lock',
  severity: 'error',
  title: 'An energy is isolated and people rely on it, and no lock holds it.',
  rules: ['LO-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const { machine, states } = procedure
    const locked = new Set(everyStep(procedure).flatMap(({ step }) => step.locks.map(({ id }) => id)))
    const reported = new Set<string>()
    for (const { id, what, energy } of machine?.isolationPoints ?? []) {
      const followed = machine?.energies.find((one) => one.id === energy)?.state
      const state = states.find((one) => one.id === followed || one.name === followed)
      const isolated = state && firstMadeSafe(state, procedure)
      if (!state || !isolated || !isReliedOn(state, procedure) || locked.has(id)) continue
      const near = nearestName(id, [...locked])
      reported.add(state.name)
      yield {
        at: isolated,
        message: `"${state.name}" is made ${state.safe.join(' or ')} here, and no step locks "${id}" (${what}).`,
        advice:
          near === null
            ? `Add a step with locks: [${id}], and one with unlocks: [${id}] at the end.`
            : `Did you mean ${id} where ${near} is locked?`,
      }
    }
    if (locked.size > 0 || /\b(?:lock|padlock|hasp|unplug|plug|fuses? out)/i.test(wordsOfJob(procedure))) return
    for (const state of states) {
      const isolated = state.energy === 'electrical' ? firstMadeSafe(state, procedure) : undefined
      if (!isolated || reported.has(state.name) || !isReliedOn(state, procedure)) continue
      reported.add(state.name)
      yield {
        at: isolated,
        message: `"${state.name}" is made ${state.safe.join(' or ')} here and people rely on it, and no step puts a lock on anything.`,
        advice:
          'Add a step that locks the isolator, locks: [its name], with a lock of each person who works, and one that unlocks it at the end.',
      }
    }
  },
}

/** A zone rests on it. */
function isReliedOn({ id, name }: State, { zones }: Procedure): boolean {
  return zones.some(({ safeWhen }) => safeWhen.some(({ state }) => state === id || state === name))
}

function firstMadeSafe({ id, name, safe, start }: State, procedure: Procedure): Place | undefined {
  if (safe.includes(start)) return undefined
  return everyStep(procedure)
    .flatMap(({ step }) => step.sets)
    .find(({ state, values }) => (state === id || state === name) && safe.includes(values.at(-1) ?? ''))?.at
}
