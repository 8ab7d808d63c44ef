import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { zonesEntered } from '../entered-zones.ts'
import { doersOf, everyStep } from '../every-step.ts'

/** Whoever has no lock on it works by another person's memory. */
export const workerWithoutLock: Check = {
  name: 'lockout/worker-without-lock',
  severity: 'warning',
  title: 'Somebody works where it is safe only while it is locked, and never puts a lock on.',
  rules: ['LO-08'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const lockSteps = everyStep(procedure).filter(({ step }) => step.locks.length > 0)
    const lockers = new Set(lockSteps.flatMap(({ step }) => doersOf(step)))
    const [firstLock] = lockSteps
    if (firstLock === undefined) return
    const reported = new Set<string>()
    for (const { zone, roles, step } of zonesEntered(procedure)) {
      if (!restsOnPower(zone, procedure)) continue
      for (const role of roles) {
        if (lockers.has(role) || reported.has(role)) continue
        reported.add(role)
        yield {
          at: step.at,
          message: `The ${role} works at "${zone}" from step ${step.number} on, and step ${firstLock.step.number}, where locks go on, is done by ${[...lockers].join(' and ')} alone.`,
          advice: `Everybody who works there fits a lock of his own: by: [${[...lockers, role].join(', ')}] at the steps that lock and unlock.`,
          related: [{ at: firstLock.step.at, message: 'Locks go on here.' }],
        }
      }
    }
  },
}

function restsOnPower(zone: string, { zones, states }: Procedure): boolean {
  return zones.some(
    ({ id, name, safeWhen }) =>
      (id === zone || name === zone) &&
      safeWhen.some(({ state }) =>
        states.some((known) => (known.id === state || known.name === state) && known.energy === 'electrical'),
      ),
  )
}
