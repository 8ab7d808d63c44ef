import type { Fault } from '../../findings/finding.ts'
import { readUnit } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { type AuthorText, everyText } from '../every-text.ts'
import { isEnglish, wordsFor } from '../told-instructions.ts'

const capitals = /(?<![\p{L}\p{N}_./&-])\p{Lu}{2,5}(?![\p{L}\p{N}_/&-])/gu

/** The new hand on the night shift does not know what an FRL is, and asks nobody. */
export const abbreviationUndeclared: Check = {
  name: 'wording/abbreviation-undeclared',
  severity: 'advice',
  title: 'An abbreviation is written out nowhere in the document.',
  rules: ['SG-12'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { procedure, written } = subject
    if (!isEnglish(procedure)) return
    const texts = everyText(procedure, written).filter(({ text, isValue }) => !isValue || isSentence(text))
    const all = texts.map(({ text }) => text).join('\n')
    const words = new Set(all.match(/\p{L}+/gu))
    const writtenOut = shortsWrittenOut(all)
    const { abbreviations } = wordsFor(subject)
    const told = new Set<string>()
    for (const said of texts)
      for (const { 0: short, index } of said.text.matchAll(capitals)) {
        if (told.has(short) || abbreviations.has(short) || readUnit(short).ok) continue
        if (isLoud(said, short, index) || isWordElsewhere(short, words) || writtenOut.has(short)) continue
        told.add(short)
        yield {
          at: said.placeOf(short),
          message: `"${short}" is written out nowhere.`,
          advice: `Write it out where it first stands: "… (${short})". If everybody in your shop knows it, add it to \`abbreviations\` in shared/words.`,
        }
      }
  },
}

const isSentence = (text: string): boolean => text.trim().split(/\s+/).length > 3

/** Words in capitals beside it are a plate, a key or a shout; so is what stands in quotes or behind "marked". */
function isLoud({ text }: AuthorText, short: string, from: number): boolean {
  const before = text.slice(0, from)
  const behind = text.slice(from + short.length)
  if (/\p{Lu}{2,}\W+$/u.test(before) || /^\W+\p{Lu}{2,}(?!\p{Ll})/u.test(behind)) return true
  if (/["“”'‘«]\s*$/.test(before) || /^\s*["”'’»]/.test(behind)) return true
  return /\b(?:marked|labelled|labeled|stamped|reads|shows|says|press|push|button|key|switch|lamp|position|to|at|type|class|grade|size|on|line|terminal|port|side|mark)\s+$/i.test(
    before,
  )
}

/** `STOP` is a word that the document also writes in small letters, or one of the common ones on plates. */
const isWordElsewhere = (short: string, words: ReadonlySet<string>): boolean =>
  plateWords.has(short) || words.has(short.toLowerCase()) || words.has(short.charAt(0) + short.slice(1).toLowerCase())

const plateWords = new Set(
  'ON OFF STOP START OPEN CLOSE SHUT IN OUT UP DOWN LEFT RIGHT AUTO HAND RESET TEST RUN MAN NO NOT YES AND OR IF THEN MUST ALL ONLY NEVER DO SAFE LIVE DEAD HOT FREE LOCK DANGER HIGH LOW FULL EMPTY PUSH PULL HOLD FAST SLOW BOTH ONE TWO NOTE EXIT FIRE STEP WAIT'.split(
    ' ',
  ),
)

/** "filter regulator lubricator (FRL)" or "FRL (filter …)", anywhere. */
function shortsWrittenOut(all: string): ReadonlySet<string> {
  const ways = [
    /\p{Ll}\s?\((\p{Lu}{2,5})s?\)/gu,
    /(?<!\p{L})(\p{Lu}{2,5})\s?(?:\(\p{L}{2,}|=\s?\p{L}|(?:means|stands for)\s)/gu,
  ]
  return new Set(ways.flatMap((way) => [...all.matchAll(way)].map(([, short = '']) => short)))
}
