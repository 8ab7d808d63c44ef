import type { Fault } from '../../findings/finding.ts'
import { baseVerbOf } from '../base-verb.ts'
import type { Check, CheckSubject } from '../check.ts'
import { passiveAt } from '../instruction.ts'
import type { Word } from '../sentences.ts'
import { everyInstruction, wordsFor } from '../told-instructions.ts'
import { subordinators } from '../word-kinds.ts'

/** "The nuts must be tightened" leaves open by whom, and whether now. */
export const passiveInstruction: Check = {
  name: 'wording/passive-instruction',
  severity: 'advice',
  title: 'A sentence behind the first one says what must be done to a thing, not what to do.',
  rules: ['SG-06'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const words = wordsFor(subject)
    for (const { step, sentences, at } of everyInstruction(subject))
      for (const sentence of sentences.slice(1)) {
        const verb = demandedAt(sentence.words)
        if (sentence.is === 'order' || verb === -1) continue
        const base = baseVerbOf(sentence.words[verb]?.low ?? '', words)
        yield {
          at,
          message: `Step ${step.number} goes on with what must be done to a thing: "${sentence.typed}"`,
          advice: `Say what to do, as an order${base === null ? '' : `: \`${base.charAt(0).toUpperCase()}${base.slice(1)} …\``}. If it comes later, make it a step of its own.`,
        }
      }
  },
}

/** `must be tightened`, `is to be wiped`: something is asked for, and not only said. */
function demandedAt(words: readonly Word[]): number {
  const verb = passiveAt(words)
  if (verb === -1) return -1
  const before = words.slice(0, verb)
  if (before.some((word) => subordinators.has(word.low))) return -1
  const asked = before.map((word) => word.low).join(' ')
  return /\b(?:must|should|shall|has to|have to|is to|are to|needs to|need to) (?:\w+ly )?be\b/.test(asked) ? verb : -1
}
