import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { zonesEntered } from '../entered-zones.ts'
import { everyWrittenStep } from '../every-step.ts'

const spaces = 'tank|bin|silo|hopper|crusher chamber|chamber|vessel|sump|chute|manhole|boiler|culvert|surge bin|mixer'
const insideOf = new RegExp(`\\b(?:inside|within|in|into) (?:the |a )?(?:\\w+ ){0,2}(${spaces})s?\\b`, 'i')
const goesIn = new RegExp(
  `\\b(?:enter|(?:climb|go|get|crawl|step)(?: down)? (?:into|inside|in)) (?:the )?(?:\\w+ ){0,2}(${spaces})s?\\b`,
  'i',
)

/** A hole that people climb into is a confined space, whatever it is called on site. */
export const zoneWithoutEntry: Check = {
  name: 'confined-space/zone-without-entry',
  severity: 'warning',
  title: 'People go into a tank, bin or chamber, and nobody admits them.',
  rules: ['CS-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const entered = zonesEntered(procedure)
    const reported = new Set<string>()
    const admits = procedure.phases.flatMap(({ permits }) => permits).find(({ name }) => /confined|entry/i.test(name))
    const role = admits?.by ?? '…'
    for (const { id, name, what, entry, at } of procedure.zones) {
      const space = insideOf.exec(what)?.[1]
      if (space === undefined || entry !== null || reported.has(name)) continue
      const first = entered.find(({ zone }) => zone === name || zone === id)
      if (first === undefined) continue
      reported.add(name)
      yield {
        at,
        message: `"${name}" is ${what}, and people are there from step ${first.step.number} on. Nobody admits them.`,
        advice: `If it is a confined space, name who admits people: ${name}: { …, entry: ${role} }. If not, accept this and say why.`,
      }
    }
    if (procedure.zones.some(({ entry }) => entry !== null) || reported.size > 0) return
    const step = everyWrittenStep(procedure).find((one) => goesIn.test(one.step.text.plain))?.step
    if (step === undefined) return
    yield {
      at: step.at,
      message: `Step ${step.number} sends somebody into the ${goesIn.exec(step.text.plain)?.[1]?.toLowerCase()}, and the document has no zone for it that says who admits people.`,
      advice:
        'Declare it: zones: { inside-tank: { what: …, safe-when: { … }, entry: … } } with the role that admits people, and say where: inside-tank.',
    }
  },
}
