import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyHotWork } from '../hot-works.ts'
import { wordsOfJob } from '../job-words.ts'

/** Somebody who is not cutting has looked at the place, and says so in writing, before the first spark. */
export const hotWorkPermitMissing: Check = {
  name: 'hot-work/permit-missing',
  severity: 'warning',
  title: 'Hot work starts without a permit.',
  rules: ['HW-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    // A site may have another paper for it: words of the job that name one are enough.
    if (/\b(?:hot[- ]work|cutting|welding|fire) (?:permit|authori[sz]ation)\b/i.test(wordsOfJob(procedure))) return
    for (const { where, permits, at } of everyHotWork(procedure)) {
      if (permits.length > 0) continue
      yield {
        at,
        message: `${where} is hot work, and no permit is named for it.`,
        advice: 'Name the permit and who issues it: permit: { hot-work: { by: …, lapses: 8 h } }',
      }
    }
  },
}
