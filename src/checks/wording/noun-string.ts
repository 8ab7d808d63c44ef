import type { Fault } from '../../findings/finding.ts'
import type { Words } from '../../library/read-words.ts'
import type { Check, CheckSubject } from '../check.ts'
import { isVerb, type ReadSentence } from '../instruction.ts'
import { everyInstruction, wordsFor } from '../told-instructions.ts'
import { determiners, finite, isAdverb, isNumber, isParticiple, joiners, particles, pronouns } from '../word-kinds.ts'

const mostNouns = 3

/** Words that say what a thing is like and are no things themselves. */
const likeness = new Set(
  'left right front rear upper lower inner outer top bottom middle old new clean dry wet hot cold long short small large big high low main spare full empty heavy light flat plain tight snug square flush plumb metric hydraulic electric electrical pneumatic mechanical red green yellow blue black white grey thick thin second single double'.split(
    ' ',
  ),
)

/** "Slurry pump gland water supply hose clamp": the reader has to build the thing from the end. */
export const nounString: Check = {
  name: 'wording/noun-string',
  severity: 'advice',
  title: 'More than three names of things stand in a row.',
  rules: ['SG-10'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const words = wordsFor(subject)
    for (const { step, sentences, at } of everyInstruction(subject))
      for (const row of sentences.flatMap((sentence) => rowsIn(sentence, words)))
        yield {
          at,
          message: `"${row.join(' ')}" in step ${step.number} is ${row.length} names of things in a row.`,
          advice: `Begin with the thing itself: "the ${row.at(-1)} of the …", "the ${row.at(-1)} on the …".`,
        }
  },
}

function rowsIn({ words }: ReadSentence, known: Words): readonly (readonly string[])[] {
  const rows: string[][] = []
  let row: string[] | null = null
  for (const { typed, low, mark } of words) {
    const isThing =
      !isGlue(low) &&
      !likeness.has(low) &&
      !isParticiple(low) &&
      !/.{2}ing$/.test(low) &&
      /^\p{Ll}[\p{Ll}-]+$/u.test(typed)
    // A row is only sure behind "the" or the like: elsewhere its first word may be the verb.
    if (determiners.has(low)) row = []
    else if (row && isThing) row.push(typed)
    else if (row && !likeness.has(low) && !isNumber(low) && !isParticiple(low)) row = close(row, rows)
    if (row && mark !== '') row = close(row, rows)
  }
  close(row, rows)
  return rows.filter((found) => !isVerb(found.at(-1) ?? '', known) || found.length > mostNouns + 1)
}

function close(row: readonly string[] | null, rows: string[][]): null {
  if (row && row.length > mostNouns) rows.push([...row])
  return null
}

const isGlue = (low: string): boolean =>
  determiners.has(low) ||
  pronouns.has(low) ||
  particles.has(low) ||
  joiners.has(low) ||
  finite.has(low) ||
  isAdverb(low)
