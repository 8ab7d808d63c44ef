import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { listIn, type NamedPart, namedParts } from '../entry-data.ts'
import { stepsBelow } from '../every-step.ts'

const lowers = /\b(?:lower|let\w* down|set\w* down|down on)\b/i

/** A jack lifts; it does not hold. */
export const leftOnJack: Check = {
  name: 'lifting/left-on-jack',
  severity: 'error',
  title: 'A load is jacked up, and in that phase nothing else takes it over.',
  rules: ['LI-10'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const supports = namedParts(procedure, 'support')
    for (const support of supports) {
      if (!isOnJacks(support, procedure) || isTakenOver(support, supports, procedure)) continue
      yield {
        at: support.at,
        message: `"${support.name}" stands on ${listIn(support.data, 'on').join(' and ')} in step ${support.step.number}, and no later step of this phase puts it on stands or blocks, or lowers it.`,
        advice:
          'Add the step right after it: support: { …: "…, on stand-left stand-right" }, before anybody goes near.',
      }
    }
  },
}

function isOnJacks({ data }: NamedPart, { resources }: Procedure): boolean {
  const on = listIn(data, 'on')
  return (
    on.length > 0 &&
    on.every((id) => /\bjacks?\b/i.test(`${id} ${resources.gear.find((one) => one.id === id)?.name ?? ''}`))
  )
}

/** In a later step of the phase it stands on something else, or is lowered. */
function isTakenOver(jacked: NamedPart, supports: readonly NamedPart[], procedure: Procedure): boolean {
  const steps = stepsBelow(jacked.phase.steps)
  const later = steps.slice(steps.findIndex(({ id }) => id === jacked.step.id) + 1)
  if (later.some(({ text }) => lowers.test(text.plain))) return true
  return supports.some(
    (other) =>
      other.name === jacked.name &&
      !isOnJacks(other, procedure) &&
      [jacked.step, ...later].some(({ baseId }) => baseId === other.step.baseId),
  )
}
