import type { Fault } from '../../findings/finding.ts'
import { shown, shownNumber } from '../../model/passes/worked-figures.ts'
import { percentOfDose } from '../../model/published-rules/rules-study.ts'
import { compare, multiply, one, rational } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { ruledSteps, wornAndSaid } from '../ruled-steps.ts'

const guardsHearing = /\b(?:ear|ears|hearing|muffs?|plugs?|ear-?muffs?|ear-?plugs?)\b/i

/** Hearing that is lost does not come back. */
export const noiseUnprotected: Check = {
  name: 'thresholds/noise-unprotected',
  severity: 'error',
  title: 'A step is louder for longer than a day allows, and no hearing protection is named.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    for (const { study, step, phase } of ruledSteps(procedure, configuration)) {
      const { noise } = study
      if (noise === null || compare(noise.dose, one) <= 0 || noise.protection !== null) continue
      if (guardsHearing.test(wornAndSaid(procedure, { step, phase }).replaceAll('-', ' '))) continue
      const allowed = shown(multiply(noise.hours, rational(3600)), 'h', 2, 'down')
      yield {
        at: study.at,
        message: `Step ${step.number} is at ${noise.level} for ${noise.time}. A day allows ${allowed} of that: ${shownNumber(percentOfDose(noise.dose), 3, 'up')} % (${noise.rule.source}). No hearing protection is named.`,
        advice: 'Put hearing protection under ppe, or say it: noise: "95 dB(A), for 2 h, protection ear muffs".',
      }
    }
  },
}
