import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { listIn, namedParts, partIn } from '../entry-data.ts'

/** What nobody has rated carries nothing. */
export const gearWithoutCapacity: Check = {
  name: 'lifting/gear-without-capacity',
  severity: 'error',
  title: 'Gear carries a load, and nothing says how much it may carry.',
  rules: ['LI-02'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const { gear } = procedure.resources
    const reported = new Set<string>()
    for (const { name, data, step, at } of namedParts(procedure, 'lift', 'support')) {
      // A crib, plank or prop is reckoned from its pieces.
      if (['crib', 'plank', 'prop'].some((built) => partIn(data, built) !== undefined)) continue
      for (const id of [...listIn(data, 'with'), ...listIn(data, 'on')]) {
        const resource = gear.find((one) => one.id === id)
        // What is not listed at all, and what is a part or a tool, is told elsewhere.
        if (
          !resource?.listed ||
          isBallast(resource.name) ||
          reported.has(id) ||
          resource.facts.some((fact) => fact.name === 'capacity')
        )
          continue
        reported.add(id)
        yield {
          at,
          message: `"${name}" hangs or stands on ${id} in step ${step.number}, and nothing says how much ${id} may carry.`,
          advice: `Write what is stamped on it: ${id}: { name: …, capacity: 2 t }. What has no stamp is not used.`,
          related: [{ at: resource.at, message: `${id} is listed here.` }],
        }
      }
    }
  },
}

/** Test weights are the load, whatever they are listed under. */
const isBallast = (name: string): boolean => /\b(?:weights?|ballast)\b/i.test(name)
