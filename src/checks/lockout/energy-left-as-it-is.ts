import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/** Energies that stay when the supply is off. What hangs is followed by what holds it. */
const STORED: ReadonlySet<string> = new Set(
  'hydraulic pneumatic pressure gas steam vacuum spring tension mechanical'.split(' '),
)

/** A spring that somebody wrote down and nobody relaxes. Where a zone rests on it, the flow tells it. */
export const energyLeftAsItIs: Check = {
  name: 'lockout/energy-left-as-it-is',
  severity: 'warning',
  title: 'A stored energy is declared, no step releases it, and no place rests on it.',
  rules: ['LO-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const set = new Set(
      everyStep(procedure).flatMap(({ step }) =>
        step.sets.flatMap(({ state, values }) => values.map((value) => `${state} ${value}`)),
      ),
    )
    const watched = watchedStates(procedure)
    const reported = new Set<string>()
    for (const { id, name, energy, start, safe, implied, at } of procedure.states) {
      if (!STORED.has(energy ?? '') || implied || safe.length === 0 || safe.includes(start)) continue
      if (watched.has(id) || watched.has(name)) continue
      if (reported.has(name) || safe.some((value) => set.has(`${id} ${value}`) || set.has(`${name} ${value}`))) continue
      reported.add(name)
      yield {
        at,
        message: `"${name}" (${energy}) is ${start} at the start. No step makes it ${safe.join(' or ')}, and no zone asks for it.`,
        advice: `Release or block it in a step, sets: { ${name}: ${safe[0]} }, and name it under safe-when of the place where it can hurt somebody.`,
      }
    }
  },
}

/** States that a zone, a ban, a hold of a load or a watch already asks for. */
function watchedStates(procedure: Procedure): ReadonlySet<string> {
  const keeps = [
    ...procedure.phases.flatMap((phase) => phase.keeps),
    ...everyStep(procedure).flatMap(({ step }) => step.keeps),
  ]
  return new Set(
    [
      ...procedure.zones.flatMap((zone) => zone.safeWhen),
      ...procedure.never.flatMap((never) => never.when),
      ...procedure.states.flatMap((state) => state.heldBy.flat()),
      ...keeps.flatMap((keep) => keep.states),
    ].map(({ state }) => state),
  )
}
