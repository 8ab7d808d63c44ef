import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstruction, type Instruction } from '../told-instructions.ts'
import { determiners, isAdverb, isNumber, isParticiple, particles, pronouns } from '../word-kinds.ts'

/** So many instructions, and this share of those where one could stand, make a habit of it. */
const fewest = 3
const share = 0.5

/** "Remove guard from crusher": is that one guard or any? */
export const articlesMissing: Check = {
  name: 'wording/articles-missing',
  severity: 'advice',
  title: 'The instructions leave out "the" and "a".',
  rules: ['SG-11'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const instructions = everyInstruction(subject)
    const bare = instructions.filter(isBare)
    const full = instructions.filter(({ text }) => /\b(?:the|a|an)\b/i.test(text))
    const [first] = bare
    if (!first || bare.length < fewest || bare.length < share * (bare.length + full.length)) return
    yield {
      at: first.at,
      message: `${bare.length} instructions leave out "the" and "a", such as "${first.text}"`,
      advice: 'Write them: "Remove the guard from the crusher." With them a verb is told from a thing.',
    }
  },
}

/** One thing by its bare name stands behind the order, and nothing in the sentence says which. */
function isBare({ sentences }: Instruction): boolean {
  const [first] = sentences
  if (first?.is !== 'order') return false
  const { words, order } = first
  if (words.some(({ low }) => determiners.has(low) || pronouns.has(low) || isNumber(low))) return false
  const behind = words.slice(order + 1)
  const thing = behind.find(({ low }) => !particles.has(low) && !isAdverb(low))
  // Several things, and stuff such as oil, need none; "grease the" is seen above.
  if (!thing || /s$/.test(thing.low) || isParticiple(thing.low) || stuff.has(thing.low)) return false
  return words[order]?.mark === '' && behind.length >= 2
}

const stuff = new Set(
  'oil grease water air gas steam dust power pressure current silicone sealant solvent paint fuel diesel coolant thread power nitrogen oxygen acetylene weight tension slack'.split(
    ' ',
  ),
)
