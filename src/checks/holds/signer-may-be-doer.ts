import type { Fault } from '../../findings/finding.ts'
import type { Hold, Procedure, Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyStep } from '../every-step.ts'
import { roleWith } from '../role-as-written.ts'

/**
 * Two roles, one person: on a night shift the fitter is also the supervisor, unless the roles must differ.
 *
 *     roles: { fitter: …, supervisor: { who: …, different-from: [fitter] } }
 */
export const signerMayBeDoer: Check = {
  name: 'holds/signer-may-be-doer',
  severity: 'warning',
  title: 'A hold may be signed by the person who did the work, because nothing says that the roles must differ.',
  rules: ['HP-03'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { procedure } = subject
    const steps = everyStep(procedure).map(({ step }) => step)
    const reported = new Set<string>()
    for (const [index, step] of steps.entries()) {
      for (const hold of step.holds) {
        if (hold.kind !== 'hold' && hold.kind !== 'verify') continue
        const doers = workBehind(hold, step, steps.slice(0, index)).filter((id) => mayBeOne(id, hold.role, procedure))
        const [doer] = doers
        if (doer === undefined || reported.has(`${doer} ${hold.role}`)) continue
        reported.add(`${doer} ${hold.role}`)
        const role = procedure.roles.find((known) => known.id === hold.role)
        yield {
          at: hold.at,
          message: `The ${hold.role} signs for work of the ${doer}, and nothing says that they must be two people.`,
          advice: role
            ? `Write it at the role: ${roleWith(role, { differentFrom: doers }, subject)}`
            : `Write it at the role: ${hold.role}: { …, different-from: [${doers.join(', ')}] }`,
          ...(role ? { related: [{ at: role.at, message: `The role ${role.id} stands here.` }] } : {}),
        }
      }
    }
  },
}

/** Who did the step, and who last changed the states that it proves. */
function workBehind(hold: Hold, step: Step, before: readonly Step[]): readonly string[] {
  const changes = step.proves.flatMap((claim) => {
    const last = before.findLast((other) => other.sets.some((change) => change.state === claim.state))
    return last ? doersOf(last) : []
  })
  return [...new Set([...doersOf(step), ...changes])].filter((role) => role !== hold.role)
}

function mayBeOne(doer: string, signer: string, { roles }: Procedure): boolean {
  // A role that nobody listed is reported as that.
  if (![doer, signer].every((id) => roles.some((role) => role.id === id))) return false
  const apart = (one: string, other: string) => roles.find((role) => role.id === one)?.differentFrom.includes(other)
  return !apart(doer, signer) && !apart(signer, doer)
}
