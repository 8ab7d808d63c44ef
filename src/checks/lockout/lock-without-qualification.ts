import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyWrittenStep } from '../every-step.ts'
import { roleWith } from '../role-as-written.ts'

const mayLock = /\b(?:lock|locks|isolat\w+|lockout|authori[sz]ed)\b/i
const learns = /\b(?:trainee|apprentice|learner|visitor|student)\b/i

/** Locking is for people who are authorised to do it. */
export const lockWithoutQualification: Check = {
  name: 'lockout/lock-without-qualification',
  severity: 'warning',
  title: 'A role puts locks on, and nothing says that it is authorised to.',
  rules: ['LO-12'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { procedure } = subject
    const { roles } = procedure
    // Only a site that writes down who may lock can have forgotten somebody.
    const isWritten = roles.some(({ qualifications }) => qualifications.some((one) => mayLock.test(one)))
    const reported = new Set<string>()
    for (const { step } of everyWrittenStep(procedure)) {
      if (step.locks.length === 0) continue
      for (const id of doersOf(step)) {
        const role = roles.find((known) => known.id === id)
        if (role === undefined || reported.has(id) || role.qualifications.some((one) => mayLock.test(one))) continue
        const isLearning = learns.test(`${id} ${role.who}`)
        if (!isWritten && !isLearning) continue
        reported.add(id)
        yield {
          at: step.at,
          message: `The ${id}${role.who === id ? '' : ` (${role.who})`} puts a lock on in step ${step.number}, and ${isLearning ? 'is still learning' : 'no qualification of this role is about locks, though other roles have one'}.`,
          advice: `Where it is true, write: ${roleWith(role, { qualifications: ['own lock'] }, subject)}. Otherwise let somebody lock who is authorised.`,
          related: [{ at: role.at, message: `The role ${id} stands here.` }],
        }
      }
    }
  },
}
