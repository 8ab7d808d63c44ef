import type { Fault } from '../../findings/finding.ts'
import { convertValue } from '../../quantities/convert.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { compare, divide, rational } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { namedParts, textIn } from '../entry-data.ts'

/** What one person may lift is for the site to say; where it has said so, every lift by hand is held against it. */
export const handledAboveSiteLimit: Check = {
  name: 'handling/above-site-limit',
  severity: 'error',
  title: 'More is lifted by hand than this site lets one person lift.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    const most = configuration.thresholds?.handLift
    if (most === undefined) return
    for (const { name, data, step, at } of namedParts(procedure, 'handle')) {
      const load = parseLimit(textIn(data, 'load') ?? '')
      const people = Number(textIn(data, 'by') ?? '1')
      const heaviest = load.ok ? (load.value.upper?.value ?? load.value.aim ?? load.value.lower?.value ?? null) : null
      if (!load.ok || heaviest === null || !(people >= 1)) continue
      const inUnit = convertValue(heaviest, load.value.unit, most.unit)
      if (!inUnit.ok || compare(divide(inUnit.value, rational(people)), most.value) <= 0) continue
      yield {
        at,
        message: `Step ${step.number} has "${name}" lifted by hand: ${textIn(data, 'load')} by ${people}. On this site one person lifts ${most.typed} at most.`,
        advice: 'Name more people with by, or lift it with gear: lift: …',
      }
    }
  },
}
