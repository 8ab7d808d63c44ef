import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { wordsOfStepAndBelow } from '../job-words.ts'
import { everyLetOut } from '../let-out.ts'

const outlet =
  /\b(?:in|into|to|onto|over|through)\s+(?:(?:the|a|an|its)\s+)?(?:[\w-]+\s+){0,2}(?:tank|reservoir|tray|bucket|drum|can|pan|container|drain|sump|pit|channel|air|atmosphere|open|silencer|muffler|hose)\b|\boutside\b/i

/** Oil at 18 MPa goes through a glove, and hot oil over a boot. Where it goes is decided beforehand. */
export const outletUnsaid: Check = {
  name: 'pressure/outlet-unsaid',
  severity: 'warning',
  title: 'A pressure is let out, and the step does not say where to.',
  rules: ['LO-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { study, step } of everyLetOut(procedure)) {
      const pressure = study.typed('pressure')
      if (pressure === null || study.typed('goes') !== null) continue
      if (outlet.test(wordsOfStepAndBelow(step))) continue
      yield {
        at: study.at,
        message: `Step ${step.number} lets out "${study.name}" at ${pressure}, and does not say where it goes.`,
        advice: `Say it: ${study.name}: ${pressure}, goes into the tray; or goes back to the tank, out through the silencer.`,
      }
    }
  },
}
