import type { Fault } from '../../findings/finding.ts'
import type { Hazard, Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'
import { type Protection, protections, wornBy } from '../protective-wear.ts'

/** What a message tells people to wear is on the list, so that it is fetched before the work starts. */
export const protectionNotListed: Check = {
  name: 'hazards/protection-not-listed',
  severity: 'error',
  title: 'A safety message asks for something to wear that is not listed under ppe.',
  rules: ['SM-15'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const listed = listedWear(procedure)
    for (const hazard of procedure.hazards) {
      for (const protection of protections) {
        const asked = askedIn(hazard, protection)
        if (asked === null || listed.some((words) => protection.listedAs.test(words))) continue
        yield {
          at: hazard.at,
          message: `The hazard "${hazard.id}" asks for ${protection.name} ("${asked}"), and no ppe of this job lists it.`,
          advice: `Add it under ppe at the top, or at the step: ppe: [${protection.id}]`,
        }
      }
    }
  },
}

/** The sentence or control that asks for it, or null. */
function askedIn({ avoid, controls }: Hazard, protection: Protection): string | null {
  const sentences = avoid.split(/(?<=[.;])\s+/)
  return (
    sentences.find((sentence) => wornBy(sentence, protection)) ??
    controls.find((control) => protection.alone.test(control)) ??
    null
  )
}

function listedWear({ resources, phases, ...procedure }: Procedure): readonly string[] {
  return [
    ...resources.ppe.map(({ id, name }) => `${id.replaceAll('-', ' ')} ${name}`),
    ...phases.flatMap(({ ppe }) => ppe),
    ...everyStep({ ...procedure, resources, phases }).flatMap(({ step }) => step.ppe),
  ].map((words) => words.replaceAll('-', ' '))
}
