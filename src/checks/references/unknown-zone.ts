import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Whereabouts } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { choices, unknownName } from '../unknown-name.ts'
import type { WrittenPart } from '../written-words.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

/** Someone is sent to a place that the document does not describe, so nothing says when it is safe there. */
export const unknownZone: Check = {
  name: 'references/unknown-zone',
  severity: 'error',
  title: 'A zone is named that the document does not have.',
  rules: ['SG-21'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const phase of procedure.phases) yield* unknownIn(phase.where, procedure, writtenAt(written, phase.at))
    for (const { step } of everyWrittenStep(procedure)) {
      const part = writtenAt(written, step.at)
      const cleared = step.clear.map((zone) => ({ role: null, zones: [zone], at: step.at }))
      yield* unknownIn([...step.where, ...step.enters, ...cleared], procedure, part)
    }
  },
}

function* unknownIn(
  whereabouts: readonly Whereabouts[],
  { zones }: Procedure,
  part: WrittenPart | undefined,
): Iterable<Fault> {
  for (const { zones: named, at } of whereabouts) {
    for (const zone of named) {
      if (zone === 'out' || zones.some((known) => known.id === zone)) continue
      const place = placeOfWord(part?.block, ['where', 'enters', 'clear'], zone) ?? at
      const positions = zones.filter((known) => known.name === zone && known.position !== null)
      if (positions.length > 0) {
        yield {
          at: place,
          message: `"${zone}" stands once for each position, and this is outside a repeat.`,
          advice: `Say which: ${choices([...positions.map((known) => known.id), `${zone}.all`])}.`,
        }
        continue
      }
      const known = [...new Set(zones.flatMap((other) => [other.name, other.id])), 'out']
      const otherwise = `Describe it at the top: zones: { ${zone}: { what: …, safe-when: { … } } }`
      yield unknownName(place, `No zone is called "${zone}".`, zone, known, otherwise)
    }
  }
}
