import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { wordsOfJob } from '../job-words.ts'
import { everyLift, isRigging } from '../lifts.ts'

const looked =
  /\b(?:inspect\w*|look\w* (?:at|over)|check\w*|saw|read)\b[^.\n]{0,80}\b(?:slings?|chains?|ropes?|shackles?|rigging|lifting gear|legs|tags?)\b/i
const wornOut =
  /\b(?:slings?|chains?|ropes?|shackles?|rigging)\b[^.\n]{0,80}\b(?:damage\w*|cuts?|worn|kinks?|legible|marked|inspected)\b/i

/** A sling is looked over before it is hooked in, every time. */
export const riggingNotInspected: Check = {
  name: 'lifting/rigging-not-inspected',
  severity: 'advice',
  title: 'Slings or rigging are used, and nothing says that they are inspected.',
  rules: ['LI-07'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const job = wordsOfJob(procedure)
    if (looked.test(job) || wornOut.test(job)) return
    const reported = new Set<string>()
    for (const { name, listed, step, at } of everyLift(procedure)) {
      for (const resource of listed) {
        const { id, facts } = resource
        if (!isRigging(resource) || reported.has(id) || facts.some((fact) => fact.name === 'inspection')) continue
        reported.add(id)
        yield {
          at,
          message: `"${name}" hangs on ${id} in step ${step.number}, and nothing says that ${id} is inspected.`,
          advice: `Add a step before it: look the rigging over, tag legible, no cut, no stretched link. And write how often it is due: ${id}: { …, inspection: 6 months }`,
          related: [{ at: resource.at, message: `${id} is listed here.` }],
        }
      }
    }
  },
}
