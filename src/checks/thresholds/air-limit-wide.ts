import type { Fault } from '../../findings/finding.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import type { Check, CheckSubject } from '../check.ts'
import { ruledSteps } from '../ruled-steps.ts'

/** Air that a published rule calls dangerous must not be able to pass as good. */
export const airLimitWide: Check = {
  name: 'thresholds/air-limit-wide',
  severity: 'error',
  title: 'The limit of a reading of the air lets through what a rule calls dangerous.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    for (const { study } of ruledSteps(procedure, configuration)) {
      for (const { name, gas, reading, broken } of study.air) {
        const [rule] = broken
        if (reading === null || rule === undefined) continue
        const typed = reading.limit?.typed
        const what = typed === undefined ? 'has no limit' : `may be ${typed}`
        const asked = `${rule.side} ${exactNumberText(rule.value)} ${rule.unit}`
        yield {
          at: reading.at,
          message: `"${name}" ${what}, and ${gas.replaceAll('-', ' ')} ${asked} is dangerous: ${rule.says.split(':')[0]} (${rule.set}, ${rule.source}).`,
          advice:
            configuration.ruleSet === undefined
              ? 'Make the limit narrower. No rule set is chosen, so the strictest holds: choose yours in witnessmark.yaml, like rule-set: us-osha-general-industry.'
              : 'Make the limit as narrow as the rule.',
        }
      }
    }
  },
}
