import type { Fault } from '../../findings/finding.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import type { Check, CheckSubject } from '../check.ts'
import { ruledSteps, wornAndSaid } from '../ruled-steps.ts'

const keepsFromFalling =
  /\b(?:guard-?rails?|rails?|harness\w*|lanyards?|fall[- ]arrest\w*|safety nets?|scaffold\w*|platform|basket|cage|lifeline)\b/i

/** Falls kill more people at work than anything else that a procedure can prevent. */
export const fallUnprotected: Check = {
  name: 'thresholds/fall-unprotected',
  severity: 'error',
  title: 'Somebody could fall from a height that needs protection, and none is named.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    for (const { study, step, phase } of ruledSteps(procedure, configuration)) {
      const { height } = study
      if (height === null || !height.isNeeded || height.protection !== null) continue
      if (keepsFromFalling.test(wornAndSaid(procedure, { step, phase }))) continue
      const [rule] = height.rules
      const why = height.isOverMachinery
        ? 'over machinery protection is needed at any height (29 CFR 1910.28(b)(6))'
        : rule
          ? `protection is needed ${rule.side} ${exactNumberText(rule.value)} ${rule.unit} (${rule.source})`
          : 'protection is needed'
      yield {
        at: study.at,
        message: `In step ${step.number} somebody could fall ${height.drop}: ${why}, and none is named.`,
        advice: 'Say what keeps people from falling: height: "3.2 m, protection harness on the fixed line".',
      }
    }
  },
}
