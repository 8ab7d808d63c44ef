import type { Words } from '../library/read-words.ts'
import { sentencesOf, type Word, wordsOf } from './sentences.ts'
import {
  aloneVerbs,
  conditionOpeners,
  determiners,
  finite,
  isAdverb,
  isEventNoun,
  isNumber,
  isParticiple,
  joiners,
  openers,
  particles,
  pronouns,
  softeners,
  subordinators,
  tellingVerbs,
} from './word-kinds.ts'

/** What a sentence of an instruction does, as far as its words tell. */
export interface ReadSentence {
  readonly typed: string
  readonly words: readonly Word[]
  /** `unsure` where the words do not tell: nothing is reported then. */
  readonly is: 'order' | 'statement' | 'passive' | 'doing-as-thing' | 'no-verb' | 'unsure'
  /** Position of the order among the words; -1 where there is none. */
  readonly order: number
  /** Where each action that is asked for begins. */
  readonly actions: readonly number[]
  /** Whether a condition, a place or a manner stands before the order. */
  readonly opensWithCondition: boolean
}

/** The sentences of an instruction, the first of which has to say what to do. */
export function readInstruction(text: string, words: Words): readonly ReadSentence[] {
  return sentencesOf(text)
    .map((sentence) => readSentence(sentence, words))
    .filter((sentence) => sentence.words.length > 0)
}

export function isVerb(word: string, { verbs }: Words): boolean {
  if (verbs.has(word)) return true
  // `torque-check`, `open/close`
  const last = /[^-/]*$/.exec(word)?.[0] ?? ''
  if (last !== word && verbs.has(last)) return true
  return /^(?:re|un).{3}/.test(word) && verbs.has(word.slice(2))
}

function readSentence(typed: string, known: Words): ReadSentence {
  const words = wordsOf(typed)
  const opening = openingOf(words, known)
  const order = opening.order
  return {
    typed,
    words,
    ...opening,
    actions: order === -1 ? [] : actionsFrom(order, words, known),
    opensWithCondition: order > 0 && conditionOpeners.has(words[afterName(words)]?.low ?? ''),
  }
}

type Opening = Pick<ReadSentence, 'is' | 'order'>

const none = (is: ReadSentence['is']): Opening => ({ is, order: -1 })

function openingOf(words: readonly Word[], known: Words): Opening {
  const start = pastSofteners(words, afterName(words))
  const first = words[start]
  // `A.` is a place held for a sentence to come.
  if (!first || isNumber(first.low) || (words.length === 1 && first.low.length < 3)) return none('unsure')
  if (isOrderAt(words, start, known)) return { is: 'order', order: start }
  if (openers.has(first.low) || /.{2}ing$/.test(first.low)) {
    const behind = orderBehindComma(words, start, known)
    if (behind !== -1) return { is: 'order', order: behind }
    const isThing = /.{2}ing$/.test(first.low) && !known.verbs.has(first.low)
    if (isThing) return none(passiveAt(words) === -1 ? 'doing-as-thing' : 'passive')
    return none(hasComma(words, start) ? statementOr('unsure', words.slice(behindComma(words, start))) : 'unsure')
  }
  if (determiners.has(first.low) || pronouns.has(first.low)) return none(statementOr('statement', words))
  if (isNominalVerb(words, start, known)) return none(statementOr('no-verb', words))
  const next = words[start + 1]
  // `Degauss the ring`: a word nobody knows that is followed like a verb may well be one.
  const mayBeVerb =
    first.mark === '' && next && (determiners.has(next.low) || pronouns.has(next.low) || isNumber(next.low))
  if (mayBeVerb && !words.some((word) => finite.has(word.low))) return none('unsure')
  // `Second, hold the brake`: who is spoken to stands first.
  const behind = start < 2 ? orderBehindComma(words.slice(0, start + 6), start, known) : -1
  if (behind !== -1 && behind - start <= 2) return { is: 'order', order: behind }
  return none(isEventNoun(first.low) ? 'doing-as-thing' : statementOr('no-verb', words))
}

/** `Second: hold the brake` speaks to somebody; `Tail bearing: grease` is a heading. */
function afterName(words: readonly Word[]): number {
  const colon = words.findIndex((word) => word.mark === ':')
  return colon !== -1 && colon < 4 && words.length > colon + 2 ? colon + 1 : 0
}

function pastSofteners(words: readonly Word[], from: number): number {
  let at = from
  for (;;) {
    const word = words[at]
    if (!word) return at
    const isSoft = softeners.has(word.low) || isAdverb(word.low)
    const isBan = word.low === 'never' || word.low === "don't"
    if (isSoft || isBan) at += 1
    else if (word.low === 'do' && words[at + 1]?.low === 'not') at += 2
    else return at
  }
}

function orderBehindComma(words: readonly Word[], start: number, known: Words): number {
  for (let at = start; at < words.length - 1; at += 1) {
    if (words[at]?.mark !== ',') continue
    const behind = pastSofteners(words, words[at + 1]?.low === 'then' ? at + 2 : at + 1)
    if (isOrderAt(words, behind, known)) return behind
  }
  return -1
}

const behindComma = (words: readonly Word[], start: number): number =>
  words.findIndex((word, at) => at >= start && word.mark === ',') + 1

const hasComma = (words: readonly Word[], start: number): boolean => behindComma(words, start) > 0

const isOrderAt = (words: readonly Word[], at: number, known: Words): boolean =>
  isVerb(words[at]?.low ?? '', known) && !isNominalVerb(words, at, known)

const namesThing = new Set(['dispose', 'think', 'be', 'take'])

/** A verb by its letters that names a thing here: `Pump pressure is read`, `Oil change`, `Release of the brake`. */
function isNominalVerb(words: readonly Word[], at: number, known: Words): boolean {
  const word = words[at]
  const next = words[at + 1]
  if (!word || !isVerb(word.low, known) || !next || word.mark !== '') return false
  if (finite.has(next.low)) return true
  if (next.low === 'of') return !namesThing.has(word.low)
  if (isFollower(next)) return false
  const afterNext = words[at + 2]
  if (isParticiple(next.low) && (!afterNext || particles.has(afterNext.low))) return true
  // A sentence is told by its beginning.
  const rest = words.slice(at + 1, at + 41)
  const end = rest.findIndex((later) => later.mark !== '' || subordinators.has(later.low))
  const clause = end === -1 ? rest : rest.slice(0, end + 1)
  if (!tellingVerbs.has(word.low) && clause.some((later) => finite.has(later.low))) return true
  if (
    !tellingVerbs.has(word.low) &&
    clause.slice(1).some((later, index) => later.low === 'are' || isStated(clause, index + 1))
  )
    return true
  const last = rest.at(-1)
  return rest.length <= 3 && rest.every((later) => !isFollower(later)) && last !== undefined && isEventNoun(last.low)
}

/** `stands are placed`: a form of "be" or "get" behind a thing. */
const isStated = (clause: readonly Word[], at: number): boolean => /^(?:get|gets)$/.test(clause[at]?.low ?? '')

const isFollower = ({ low }: Word): boolean =>
  determiners.has(low) || pronouns.has(low) || particles.has(low) || isNumber(low) || isAdverb(low)

function statementOr(otherwise: ReadSentence['is'], words: readonly Word[]): ReadSentence['is'] {
  if (passiveAt(words) !== -1) return 'passive'
  const first = words[pastSofteners(words, 0)]?.low ?? ''
  if (determiners.has(first) || pronouns.has(first)) return 'statement'
  return words.some((word) => finite.has(word.low)) ? 'statement' : otherwise
}

const formsOfBe = new Set(['is', 'are', 'was', 'were', 'be', 'been', 'being'])

/** Where `is taken`, `must be tightened`, `to be wiped` has its verb, or -1. */
export function passiveAt(words: readonly Word[]): number {
  return words.findIndex((word, at) => {
    if (!isParticiple(word.low)) return false
    let before = at - 1
    while (
      before > 0 &&
      (isAdverb(words[before]?.low ?? '') || /^(?:not|now|then|first)$/.test(words[before]?.low ?? ''))
    )
      before -= 1
    return formsOfBe.has(words[before]?.low ?? '')
  })
}

/** The order itself, and every order behind a comma, `and` or `then`. */
function actionsFrom(order: number, words: readonly Word[], known: Words): readonly number[] {
  const actions = [order]
  for (let at = order + 1; at < words.length; at += 1) {
    const before = words[at - 1]
    if (!before) continue
    const isBehindMark = [',', ';', ':'].includes(before.mark)
    const joiner = joiners.has(before.low) ? before.low : ''
    if (!isBehindMark && joiner === '') continue
    if (joiners.has(words[at]?.low ?? '')) continue
    if (/^(?:not|never|do|don't)$/.test(words[at]?.low ?? '') && words[at + 1]?.low !== 'the') continue
    const verb = pastSofteners(words, at)
    const latest = actions.at(-1) ?? order
    const isBare = words.slice(latest + 1, at).every(({ low }) => joiners.has(low))
    // `relieve, disconnect or restrain it`: one of these is done.
    if (joiner === 'or' && isBare && actions.length > 1 && isVerb(words[verb]?.low ?? '', known)) actions.pop()
    if (isFurtherOrder(words, verb, at, joiner, isBare, known)) actions.push(verb)
  }
  return actions
}

/** What is done to one thing in one move: `press and hold`, `read and write down`. */
const secondHalves = new Set(['hold', 'write', 'note', 'record'])

function isFurtherOrder(
  words: readonly Word[],
  at: number,
  boundary: number,
  joiner: string,
  isBareBefore: boolean,
  known: Words,
): boolean {
  const word = words[at]
  if (!word || !isVerb(word.low, known) || isNominalVerb(words, at, known)) return false
  if (joiner === 'or' || (isBareBefore && secondHalves.has(word.low))) return false
  const next = words[at + 1]
  const standsAlone = isBareBefore || aloneVerbs.has(word.low) || /^un.{3}/.test(word.low)
  // `raise it, stop, look at the sling`: the stop between two moves is not ticked.
  if (/^(?:stop|pause|halt)$/.test(word.low) && next && (word.mark === ',' || joiners.has(next.low))) return false
  if (!next || word.mark !== '') return joiner === 'then' || standsAlone
  if (next.low === 'of') return word.low === 'dispose'
  if (joiners.has(next.low)) return standsAlone
  // `screw by screw`
  if (words[at + 2]?.low === word.low) return false
  const isBehindCommaAnd = joiner === 'and' && words[boundary - 2]?.mark === ','
  return isFollower(next) || joiner === 'then' || isBehindCommaAnd || at > boundary
}
