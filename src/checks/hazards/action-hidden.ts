import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { wordsOfJob } from '../job-words.ts'

/** Work that is done once and can be ticked; keeping away, wearing and holding are no such work. The stem finds it in the steps. */
const acts: readonly (readonly [verb: string, stem: string])[] = [
  ['drain', 'drain|empt'],
  ['bleed', 'ble(?:e)?d'],
  ['vent', 'vent'],
  ['depressurise', 'depressuri|pressure|bleed|bled|vent'],
  ['depressurize', 'depressuri|pressure|bleed|bled|vent'],
  ['discharge', 'discharg|earth'],
  ['isolate', 'isolat|lock|unplug|disconnect'],
  ['lock out', 'lock'],
  ['lock off', 'lock'],
  ['disconnect', 'disconnect|isolat|take .* off|unplug|remov'],
  ['deflate', 'deflat|air|flat'],
  ['chock', 'chock'],
  ['loosen', 'loosen|slacken|back off|undo'],
  ['slacken', 'loosen|slacken|back off'],
  ['tighten', 'tighten|torque'],
  ['remove', 'remov|take|off|out|clear'],
  ['flush', 'flush|rinse|wash'],
  ['purge', 'purg|vent'],
]

/** What must be done and ticked is a step; a message is read, and then the page is turned. */
export const actionHidden: Check = {
  name: 'hazards/action-hidden',
  severity: 'warning',
  title: 'A safety message asks for work that no step does.',
  rules: ['SM-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyStep(procedure)
    if (steps.length === 0) return
    // A step that bleeds a circuit may say so by the state it sets.
    const states = steps.flatMap(({ step }) => [...step.sets, ...step.proves].flatMap(({ values }) => values))
    const done = `${wordsOfJob(procedure)}\n${states.join('\n')}`
    for (const { id, avoid, at } of procedure.hazards) {
      for (const sentence of avoid.split(/(?<=[.;])\s+/)) {
        const verb = /^(?:first |then )?([a-z]+(?: out| off)?)\b/i.exec(sentence.trim())?.[1]?.toLowerCase() ?? ''
        const act = acts.find(([name]) => verb === name || verb.split(' ')[0] === name)
        if (act === undefined || new RegExp(`\\b(?:${act[1]})`, 'i').test(done)) continue
        yield {
          at,
          message: `The hazard "${id}" asks to "${sentence.trim().replace(/[.;]$/, '')}", and no step of the job does it.`,
          advice: 'Make it a step, with its reading or check. The message says how to stay safe while it is done.',
        }
        break
      }
    }
  },
}
