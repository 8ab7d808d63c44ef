import type { Fault } from '../../findings/finding.ts'
import type { Words } from '../../library/read-words.ts'
import { baseVerbOf } from '../base-verb.ts'
import type { Check, CheckSubject } from '../check.ts'
import { passiveAt, type ReadSentence } from '../instruction.ts'
import { everyInstruction, wordsFor } from '../told-instructions.ts'

/** An instruction is found by its verb: whoever looks up from the work looks for it at the front. */
export const verbNotFirst: Check = {
  name: 'wording/verb-not-first',
  severity: 'warning',
  title: 'A step does not begin with what is to be done.',
  rules: ['SG-02', 'SG-06', 'SG-16'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const words = wordsFor(subject)
    for (const { step, sentences, at } of everyInstruction(subject)) {
      const [first] = sentences
      if (!first || first.is === 'order' || first.is === 'unsure') continue
      yield {
        at,
        message: `Step ${step.number} ${whatItDoes(first)}: "${beginning(first)}"`,
        advice: adviceOn(first, words),
      }
    }
  },
}

function whatItDoes({ is }: ReadSentence): string {
  if (is === 'passive') return 'says what is done to a thing, not what to do'
  if (is === 'statement') return 'says how things are, or who does what; it does not say what to do'
  if (is === 'doing-as-thing') return 'names the work like a thing'
  return 'does not begin with what to do'
}

function beginning({ words }: ReadSentence): string {
  const typed = words.slice(0, 8).map((word) => word.typed)
  return `${typed.join(' ')}${words.length > 8 ? ' …' : ''}`
}

function adviceOn({ is, words }: ReadSentence, known: Words): string {
  const verb = suggested(is, words, known)
  const begin =
    verb === null
      ? 'Begin with the verb, as an order: `Loosen …`, `Read …`.'
      : `Begin with the verb, as an order: \`${capital(verb)} …\`.`
  if (is === 'statement') return `${begin} Who does it stands in bold before it: \`**Second:** …\`.`
  const doer = is === 'no-verb' ? orderOfPerson(words, known) : null
  if (doer !== null) return `Who does it stands in bold, and the verb behind it as an order: \`${doer}\`.`
  if (is === 'no-verb')
    return `${begin} If "${words[0]?.low ?? ''}" is an order in your shop, add it to \`verbs\` in shared/words.`
  return begin
}

/** "Electrician connects the cable" → "**Electrician:** Connect …"; null where the first word is hardly a person. */
function orderOfPerson([first, second, third]: ReadSentence['words'], known: Words): string | null {
  if (!first || !second || !third || first.mark !== '' || !/(?:er|or|ian|man|mate)$/.test(first.low)) return null
  const verb = /[^s]s$/.test(second.low) ? baseVerbOf(second.low, known) : null
  return verb === null ? null : `**${capital(first.low)}:** ${capital(verb)} …`
}

function suggested(is: ReadSentence['is'], words: ReadSentence['words'], known: Words): string | null {
  if (is === 'passive') return baseVerbOf(words[passiveAt(words)]?.low ?? '', known)
  if (is === 'doing-as-thing') return baseVerbOf(words[0]?.low ?? '', known)
  if (is !== 'statement') return null
  for (const { low } of words.slice(1, 8))
    if (/s$/.test(low) && !/ss$/.test(low)) {
      const verb = baseVerbOf(low, known)
      if (verb !== null) return verb
    }
  return null
}

const capital = (word: string): string => word.charAt(0).toUpperCase() + word.slice(1)
