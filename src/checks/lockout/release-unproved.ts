import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { everyRelease } from '../stored-energies.ts'

/** A closed cock, a frozen line or a second accumulator: what was let out is empty when a gauge or a try says so. */
export const releaseUnproved: Check = {
  name: 'lockout/release-unproved',
  severity: 'warning',
  title: 'A stored energy is let out, a place rests on it, and nothing shows that it is gone.',
  rules: ['LO-04', 'LO-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyStep(procedure).map(({ step }) => step)
    const proved = new Set(steps.flatMap((step) => step.proves.map(({ state }) => state)))
    const reliedOn = new Set(procedure.zones.flatMap(({ safeWhen }) => safeWhen).map(({ state }) => state))
    const reported = new Set<string>()
    for (const { step, state } of everyRelease(procedure)) {
      const names = [state.id, state.name]
      // With `proved-by` the flow tells where a proof is missing.
      if (state.provedBy.length > 0 || names.some((name) => proved.has(name))) continue
      if (!names.some((name) => reliedOn.has(name)) || reported.has(state.name)) continue
      // A gauge that is read or a check that is answered at the release shows it.
      if (step.readings.length > 0 || step.holds.length > 0) continue
      reported.add(state.name)
      yield {
        at: step.at,
        message: `Step ${step.number} lets "${state.name}" (${state.energy}) out, and nothing shows that it is gone.`,
        advice: `Declare what proves it, ${state.name}: { …, proved-by: reading }, and add the step: read the gauge or try it, with proves: { ${state.name}: ${state.safe[0]} }.`,
      }
    }
  },
}
