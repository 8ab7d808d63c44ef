import type { Fault } from '../../findings/finding.ts'
import type { Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/** Given back as soon as the last bolt is tight: the first who runs it finds out. */
export const notTestedAfter: Check = {
  name: 'restoration/not-tested-after',
  severity: 'warning',
  title: 'After the last thing is put back nobody reads, checks or signs anything.',
  rules: ['RC-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    // Without an energy nothing runs that could be tried.
    if (!procedure.states.some((state) => state.energy !== null)) return
    const steps = everyStep(procedure).map(({ step }) => step)
    const last = steps.findLastIndex(putsTogether)
    const step = steps[last]
    if (step === undefined || steps.slice(last).some(looks)) return
    yield {
      at: step.at,
      message: `Step ${step.number} puts the last thing back, and from there on nothing is read, checked or signed.`,
      advice:
        'End with a test that has a limit: run it, read what shows that it does its job, and say what follows if not.',
    }
  },
}

const putsTogether = (step: Step): boolean => step.refits.length + step.fits.length + step.torques.length > 0

const looks = (step: Step): boolean => step.readings.length + step.holds.length > 0
