import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Zone } from '../../model/states.ts'
import type { Check, CheckSubject } from '../check.ts'
import { type Entered, zonesEntered } from '../entered-zones.ts'
import { everyStep } from '../every-step.ts'
import { wordsOfJob } from '../job-words.ts'

const air = /\b(?:oxygen|O2|atmosphere|LEL|gas[- ]?test\w*|air test\w*|ppm)\b/i
const attends =
  /\b(?:attendant|stands? (?:at|by) the (?:opening|manhole|hatch|door)|stays outside|stand-?by person|sentry|hole watch)\b/i
const rescues = /\b(?:rescue\w*|retriev\w*|tripod|lifeline)\b/i

/** Most of those who die in a tank went in to fetch somebody out. */
export const entryUnguarded: Check = {
  name: 'confined-space/entry-unguarded',
  severity: 'warning',
  title: 'People go into a confined space without permit, air test, attendant or rescue.',
  rules: ['CS-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const entered = zonesEntered(procedure)
    const reported = new Set<string>()
    for (const zone of procedure.zones) {
      const first = entered.find((one) => one.zone === zone.name || one.zone === zone.id)
      if (zone.entry === null || first === undefined || reported.has(zone.name)) continue
      reported.add(zone.name)
      const missing = missingFor(zone, first, procedure)
      if (missing.length === 0) continue
      yield {
        at: first.step.at,
        message: `From step ${first.step.number} on, the ${first.roles.join(' and the ')} ${first.roles.length === 1 ? 'goes' : 'go'} into "${zone.name}", a confined space. Missing: ${missing.map(({ what }) => what).join(', ')}.`,
        advice: `Add ${missing.map(({ advice }) => advice).join('; ')}.`,
        related: [{ at: zone.at, message: `${zone.name} asks for entry by ${zone.entry}.` }],
      }
    }
  },
}

interface Missing {
  readonly what: string
  readonly advice: string
}

function missingFor({ entry }: Zone, { roles }: Entered, procedure: Procedure): readonly Missing[] {
  const steps = everyStep(procedure).map(({ step }) => step)
  const permits = [...procedure.phases, ...steps].flatMap((part) => part.permits)
  const keeps = [...procedure.phases, ...steps].flatMap((part) => part.keeps)
  const readings = steps.flatMap((step) =>
    step.readings.map(({ name, asks }) => `${name.replaceAll('-', ' ')} ${asks ?? ''}`),
  )
  const words = wordsOfJob(procedure)
  const emergency = procedure.emergency.map(({ name, says }) => `${name.replaceAll('-', ' ')} ${says}`).join('\n')
  const hasAttendant = attends.test(words) || keeps.some(({ by }) => by.some((role) => !roles.includes(role)))
  return [
    ...(permits.length > 0
      ? []
      : [{ what: 'a permit', advice: `permit: { confined-space: { by: ${entry}, lapses: 8 h } }` }]),
    ...(air.test(readings.join('\n'))
      ? []
      : [{ what: 'a reading of the air', advice: 'measure: { oxygen: "19.5 to 23.5 %, with gas-meter" }' }]),
    ...(hasAttendant
      ? []
      : [{ what: 'somebody outside who does nothing else', advice: 'keep: { attendant: { says: …, by: … } }' }]),
    ...(rescues.test(`${words}\n${emergency}`)
      ? []
      : [{ what: 'how somebody is fetched out', advice: 'emergency: { rescue: … }' }]),
  ]
}
