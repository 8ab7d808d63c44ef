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
    const elsewhere = procedure.phases.find(({ permits }) => permits.some(({ name }) => /hot|cutting|weld/i.test(name)))
    const toldOf = new Set<string>()
    for (const { where, permits, phase, at } of everyHotWork(procedure)) {
      // One permit for the phase answers all its hot work.
      if (permits.length > 0 || toldOf.has(phase.id)) continue
      toldOf.add(phase.id)
      yield {
        at,
        message: elsewhere
          ? `${where} is hot work, and the permit of phase ${elsewhere.number} stands for that phase alone.`
          : `${where} is hot work, and no permit is named for it.`,
        advice: elsewhere
          ? `Write the same \`permit\` in the block of phase ${phase.number} too.`
          : `Name the permit and who issues it in the block of phase ${phase.number}: permit: { hot-work: { by: …, lapses: 8 h } }`,
      }
    }
  },
}
