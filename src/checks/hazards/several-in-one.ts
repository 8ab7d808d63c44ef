import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

/** Dangers of different kinds, each by words that speak of nothing else. */
const kinds: readonly RegExp[] = [
  /\b(?:noise|loud)\b/i,
  /\b(?:hot (?:oil|metal|surfaces?|parts?|water)|scalding|burns?)\b/i,
  /\b(?:falling|falls|suspended load|hanging load)\b/i,
  /\b(?:electric(?:al)? (?:shock|current)|live (?:parts?|wires?|cables?|conductors?))\b/i,
  /\b(?:dust)\b/i,
  /\b(?:fumes?|vapou?rs?|solvent|acid)\b/i,
  /\b(?:hydraulic pressure|oil under pressure|high[- ]pressure oil)\b/i,
  /\b(?:compressed air|air pressure)\b/i,
  /\b(?:nip points?|rotating parts?|moving parts?|turning parts?)\b/i,
  /\b(?:sharp edges?)\b/i,
  /\b(?:slippery|slip(?:s|ping)?|trip(?:s|ping)?)\b/i,
  /\b(?:heavy (?:parts?|loads?))\b/i,
]

/** Three dangers in one message have one way to avoid them between them. */
export const severalInOne: Check = {
  name: 'hazards/several-in-one',
  severity: 'warning',
  title: 'One safety message tells of several different dangers.',
  rules: ['SM-11'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, hazard, at } of procedure.hazards) {
      // Dangers in a row, "hot oil, noise and falling parts": each part of the row is of a kind of its own.
      const parts = hazard.split(/,|;|\band\b|&|\//i).map((part) => kinds.findIndex((kind) => kind.test(part)))
      const told = new Set(parts.filter((kind) => kind !== -1))
      if (told.size < 2) continue
      yield {
        at,
        message: `The hazard "${id}" tells of ${told.size} dangers at once: "${hazard}"`,
        advice: 'Write one hazard for each, with its own consequence and its own way to avoid it.',
      }
    }
  },
}
