import type { Fault } from '../../findings/finding.ts'
import type { Expressions } from '../../library/read-words.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { type AuthorText, everyText, type TypedText } from '../every-text.ts'
import { findExpressions } from '../find-expressions.ts'
import { type Word, wordsOf } from '../sentences.ts'
import { isEnglish, wordsFor } from '../told-instructions.ts'

/** Whoever reads two names looks for two things. */
export const twoNames: Check = {
  name: 'wording/two-names',
  severity: 'warning',
  title: 'One thing has two names, or one word two spellings.',
  rules: ['SG-09', 'SG-14'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { procedure, written } = subject
    if (!isEnglish(procedure)) return
    // A thing without a name of its own is called by its id: that is no spelling of the author's.
    const ids = new Set(
      Object.values(procedure.resources).flatMap((list) => list.map(({ id }) => id.replaceAll('-', ' '))),
    )
    const authored = everyText(procedure, written).filter(({ text }) => !ids.has(text))
    const names = inSingular(wordsFor(subject).otherNames)
    for (const said of names.size === 0 ? [] : authored)
      for (const found of findExpressions(wordsOfNames(said.typed), names)) {
        // A name in a block is written with hyphens.
        const typed = said.text.includes(found.typed) ? found.typed : found.typed.replaceAll(' ', '-')
        yield {
          at: said.placeOf(typed),
          message: `"${typed}" is called "${found.says}" here.`,
          advice: `Write "${found.says}".`,
        }
      }
    const texts = authored
      .filter(({ text, isValue }) => !isValue || isSentence(text))
      .map((said): ReadText => ({ said, words: wordsIn(said.typed) }))
    yield* twoSpellings(texts)
  },
}

const inSingular = (names: Expressions): Expressions =>
  new Map([...names].map(([other, name]) => [other.split(' ').map(singular).join(' '), name]))

const wordsOfNames = oncePer(({ text, isValue }: TypedText): readonly Word[] =>
  wordsOf(isValue ? text.replaceAll('-', ' ') : text).map((word) => ({ ...word, low: singular(word.low) })),
)

const wordsIn = oncePer(({ text }: TypedText): readonly Word[] => wordsOf(text))

/** Values of a block are names and figures, but for the sentences among them. */
const isSentence = (text: string): boolean => /^\p{Lu}\S*\s\S+\s/u.test(text)

interface ReadText {
  readonly said: AuthorText
  readonly words: readonly Word[]
}

interface Use {
  readonly typed: string
  readonly at: () => Place
}

/** Words that two coasts of one ocean write in two ways. */
const spellings: readonly (readonly [string, string])[] = [
  ['tyre', 'tire'],
  ['gauge', 'gage'],
  ['grey', 'gray'],
  ['aluminium', 'aluminum'],
  ['calliper', 'caliper'],
  ['colour', 'color'],
  ['sulphur', 'sulfur'],
  ['vice', 'vise'],
  ['mould', 'mold'],
  ['axle', 'axel'],
]

function* twoSpellings(texts: readonly ReadText[]): Iterable<Fault> {
  const uses = new Map<string, Use>()
  for (const { said, words } of texts)
    for (const [index, { low, typed, mark }] of words.entries()) {
      note(uses, singular(low), typed, said)
      const next = words[index + 1]
      // "lock nut": two words that others write as one.
      if (next && mark === '' && isPart(singular(next.low)))
        note(uses, `${low} ${singular(next.low)}`, `${typed} ${next.typed}`, said)
    }
  for (const [one, other] of [...spellings, ...joinedAndApart(uses)]) {
    const [first, second] = [uses.get(one), uses.get(other)]
    if (!first || !second) continue
    yield {
      at: second.at(),
      message: `"${first.typed}" and "${second.typed}" both stand in this document.`,
      advice: 'Write one of them everywhere.',
      related: [{ at: first.at(), message: `"${first.typed}" stands here.` }],
    }
  }
}

function note(uses: Map<string, Use>, key: string, typed: string, said: AuthorText): void {
  if (!uses.has(key)) uses.set(key, { typed, at: () => said.placeOf(typed) })
}

/** `lock nut` where `locknut` or `lock-nut` stands too. */
function joinedAndApart(uses: ReadonlyMap<string, Use>): readonly (readonly [string, string])[] {
  return [...uses.keys()].flatMap((key) => {
    const [first, second] = key.split(' ')
    if (first === undefined || second === undefined) return []
    const ways = [`${first}${second}`, `${first}-${second}`].filter((way) => uses.has(way))
    return ways.map((way) => [way, key] as const)
  })
}

const parts = new Set(
  'nut ring pin bolt plate washer screw shaft seal bearing cap cover key rod spring valve pump hose pipe lever plug shim stud hub drum guard block stand chain wrench spanner tool bar'.split(
    ' ',
  ),
)

const isPart = (word: string): boolean => parts.has(word)

const singular = (low: string): string => (/[^s]s$/.test(low) && low.length > 3 ? low.slice(0, -1) : low)
