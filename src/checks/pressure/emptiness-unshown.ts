import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import type { StoredStudy } from '../../model/stored-energy/stored-study.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { everyLetOut } from '../let-out.ts'

/** A blocked port, a shut cock, a spring that hangs: it is gone when a gauge or an eye says so. */
export const emptinessUnshown: Check = {
  name: 'pressure/emptiness-unshown',
  severity: 'warning',
  title: 'A stored energy is let out, and nothing is said that shows that it is gone.',
  rules: ['LO-04', 'LO-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study, step } of everyLetOut(procedure)) {
      if (study.gauge !== null || study.typed('seen') !== null || isShown(procedure, step, study)) continue
      yield {
        at: study.at,
        message: `Step ${step.number} lets out "${study.name}", and nothing shows that it is gone.`,
        advice:
          study.typed('pressure') === null
            ? 'Say what is seen then: seen it sits on its stop; or name the reading that shows it: gauge spring-length.'
            : 'Name the reading that shows it: gauge hoist-pressure; or say what is seen: seen no oil comes any more.',
      }
    }
  },
}

/** By the step itself, or by a proof of the state with its name. */
function isShown(procedure: Procedure, step: Step, { name }: StoredStudy): boolean {
  if (step.readings.length > 0 || step.holds.length > 0) return true
  const own = new Set(procedure.states.flatMap((state) => (state.name === name ? [state.id, state.name] : [])))
  return everyStep(procedure).some((each) => each.step.proves.some(({ state }) => own.has(state)))
}
