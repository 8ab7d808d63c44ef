import type { Fault } from '../../findings/finding.ts'
import type { Step } from '../../model/procedure.ts'
import { convertBetween } from '../../quantities/convert.ts'
import { type QuantityInText, quantitiesIn } from '../../quantities/find-quantities-in-text.ts'
import { limitOfPrinted } from '../../quantities/judge-reading.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import type { Bound, Limit, Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, subtract } from '../../quantities/rational.ts'
import { roundingOf } from '../../quantities/rounding-of-number.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { wordingOf } from '../every-text.ts'

/** The sentence says 5 mm, the block 2 to 4 mm: half the crew goes by the one, half by the other. */
export const proseAgainstBlock: Check = {
  name: 'numbers/prose-against-block',
  severity: 'warning',
  title: 'The wording of a step gives another figure than its block.',
  rules: [],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) yield* faultsOf(step)
  },
}

const faultsOf = oncePer((step: Step): readonly Fault[] => [...contradictionsIn(step)])

function* contradictionsIn(step: Step): Iterable<Fault> {
  const stated = statedIn(step)
  if (stated.length === 0) return
  for (const sentence of sentencesOf(step)) {
    const { at } = sentence
    const text = inDigits(sentence.text)
    const found = quantitiesIn(text).quantities.filter((quantity) => !isAside(quantity, text))
    for (const figure of found) {
      // Two figures of one kind in a sentence: which one is meant is for people to see.
      if (found.filter(({ limit }) => limit.kind === figure.limit.kind).length > 1) continue
      const meant = meantBy(figure, text, stated)
      const [first] = meant
      if (!first || !meant.every(({ limit }) => contradicts(figure, limit))) continue
      const typed = meant.map(({ limit }) => limit.typed).join(' or ')
      yield {
        at,
        message: `The wording of step ${step.number} says "${asTyped(figure, sentence.text)}", its block says ${typed} for ${first.name}.`,
        advice: 'Type the same in both, or leave the figure out of the wording: the sheet prints the one in the block.',
        related: [{ at: first.at, message: `${first.name} is ${typed} here.` }],
      }
    }
  }
}

/** A limit of the block, and which key says it. */
interface Stated {
  readonly key: string
  readonly name: string
  readonly limit: Limit
  readonly at: Place
}

function statedIn(step: Step): readonly Stated[] {
  const judged = [
    ...step.torques.map(({ id, limit, at }) => ({ key: 'torque', name: id.split('@')[0] ?? id, limit, at })),
    ...step.readings.map(({ kind, name, limit, at }) => ({ key: kind, name, limit, at })),
  ].flatMap(({ limit, ...rest }): readonly Stated[] => {
    const exact = limit && limitOfPrinted(limit)
    return exact?.kind ? [{ ...rest, limit: exact }] : []
  })
  const others = step.entries.flatMap(({ key, data, at }) =>
    ['lift', 'support', 'handle', 'wait'].includes(key)
      ? loadsIn(data, key).map((stated) => ({ ...stated, key, at }))
      : [],
  )
  return [...judged, ...others]
}

/** `lift: { hub: { load: 640 kg ± 10 % } }`, `wait: [{ limit: min 2 min }]`. */
function loadsIn(data: PlainValue, name: string): readonly { readonly name: string; readonly limit: Limit }[] {
  if (typeof data === 'string') return []
  if (Array.isArray(data)) return data.flatMap((item) => loadsIn(item, name))
  return Object.entries(data).flatMap(([key, value]) => {
    if (typeof value !== 'string') return loadsIn(value, key)
    const limit = key === 'load' || key === 'limit' ? parseLimit(value) : null
    return limit?.ok ? [{ name, limit: limit.value }] : []
  })
}

interface Sentence {
  readonly text: string
  readonly at: Place
}

function sentencesOf(step: Step): readonly Sentence[] {
  const texts = [
    ...wordingOf(step),
    ...step.holds.map(({ says, at }) => ({ text: says, at })),
    ...step.readings.flatMap(({ asks, at }) => (asks === null ? [] : [{ text: asks, at }])),
  ]
  return texts.flatMap(({ text, at }) =>
    text.split(/(?<=[.!?;])\s+(?=\p{Lu})/u).map((sentence) => ({ text: sentence, at })),
  )
}

const numberWords = 'one two three four five six seven eight nine ten eleven twelve'.split(' ')
const tens: ReadonlyMap<string, number> = new Map([
  ['fifteen', 15],
  ['twenty', 20],
  ['thirty', 30],
  ['forty-five', 45],
  ['sixty', 60],
  ['ninety', 90],
])
const wordBeforeUnit = new RegExp(
  `\\b(?:${[...numberWords, ...tens.keys()].join('|')})(?=\\s+(?:seconds?|minutes?|hours?|days?)\\b)`,
  'gi',
)

/** `wait five minutes` → `wait    5 minutes`: every letter keeps its place. */
function inDigits(text: string): string {
  return text.replace(wordBeforeUnit, (word) => {
    const value = tens.get(word.toLowerCase()) ?? numberWords.indexOf(word.toLowerCase()) + 1
    return String(value).padStart(word.length)
  })
}

const boundWords =
  /\b(?:(?:(?:no|not)\s+)?(?:less|more)\s+than|at\s+(?:most|least)|up\s+to|max(?:imum)?\.?|min(?:imum)?\.?|under|over|below|above)\s*$/i

/** In the author's own words, with what makes a bound of the figure. */
function asTyped({ from, to }: QuantityInText, text: string): string {
  const word = /[\p{L}-]*$/u.exec(text.slice(0, from))?.[0] ?? ''
  const start = from - word.length
  return `${boundWords.exec(text.slice(0, start))?.[0] ?? ''}${text.slice(start, to)}`
}

const placeWords =
  /^\s*(?:from|away|above|below|behind|beyond|inside|outside|off|past|before|ahead|in front|short of|further|farther|apart|long|wide|high)\b/i
const fromBefore = /\b(?:from|by|at|a|an|the|each|every|per|with)\s+$/i

const conditionWords = /\b(?:if|when|whenever|while|until|unless|once|before|after|otherwise|in case)\b/i

/** A distance to something, a change, a tool's size, a condition, a rough figure: not what the reading has to be. */
function isAside({ from, to, isApproximate }: QuantityInText, text: string): boolean {
  const lead = text.slice(0, from)
  return isApproximate || placeWords.test(text.slice(to)) || fromBefore.test(lead) || conditionWords.test(lead)
}

const givesValue =
  /(?:\b(?:is|are|be|of|to|reads?|reach(?:es)?|shows?|weighs?|between|within|limit|exceed(?:s|ing)?|than|most|least|max(?:imum)?\.?|min(?:imum)?\.?|under|over|below|above|up to|for|wait)|[:=(,≤≥<>])\s*$/i
const stageWords = /\b(?:first|then|pass(?:es)?|stages?|seat|loosen|slacken|back off|again|release|hand|snug)\b/i

/** The limits that a figure can only be about; none where that is not certain. */
function meantBy({ limit, from }: QuantityInText, text: string, stated: readonly Stated[]): readonly Stated[] {
  const ofKind = stated.filter((candidate) => candidate.limit.kind === limit.kind)
  const lead = text.slice(0, from)
  const named = ofKind.filter(({ name }) => namePattern(name).test(lead))
  const names = new Set(named.map(({ name }) => name))
  if (names.size === 1 && named.some(({ name }) => givesValue.test(lead) || endsWithName(lead, name))) return named
  const [only, another] = ofKind
  if (!only || another || !givesValue.test(lead)) return []
  return isCalledFor(only, lead, text, limit) ? [only] : []
}

/** The only limit of its kind, and the sentence does what its key says. */
function isCalledFor({ key }: Stated, lead: string, text: string, { lower, upper }: Limit): boolean {
  if (key === 'torque') return /\b(?:tighten|torque)/i.test(lead) && !stageWords.test(text)
  if (key === 'set') return /\b(?:set|adjust)\b/i.test(lead) && /\bto\s*$/i.test(lead)
  if (key === 'wait') return /\bwait\b/i.test(lead)
  return lower !== null && upper !== null && /\b(?:must|should|shall|limit)\b/i.test(lead)
}

/** `end-play` is found as "end play" too. */
function namePattern(name: string): RegExp {
  return new RegExp(`(?<![\\p{L}\\d-])${wordsOf(name)}(?![\\p{L}\\d])`, 'iu')
}

function endsWithName(lead: string, name: string): boolean {
  return new RegExp(`(?<![\\p{L}\\d-])${wordsOf(name)}\\s*$`, 'iu').test(lead)
}

const wordsOf = (name: string): string =>
  name
    .split('-')
    .map((word) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&'))
    .join('[-\\s]')

/** Whether a figure, with all that its rounding leaves open, cannot be what the limit says. */
function contradicts({ limit: said }: QuantityInText, limit: Limit): boolean {
  if (said.form === 'nominal') return said.aim !== null && !isWithin(said.aim, said.aimWritten, said, limit)
  const isOther = (end: Bound | null, other: Bound | null) =>
    end !== null && other !== null && !isNear(end.value, end.written, said, other.value, limit)
  if (isOther(said.lower, limit.lower) || isOther(said.upper, limit.upper)) return true
  // An end that the limit has not: it must at least be a value that the limit allows.
  return [said.lower, said.upper].some((end) => end !== null && !isWithin(end.value, end.written, said, limit))
}

function isWithin(value: Rational, written: string | undefined, said: Limit, limit: Limit): boolean {
  const figure = inUnitOf(limit, said, value, written)
  if (figure === null) return true
  if (!limit.lower && !limit.upper) return !limit.aim || isNear(value, written, said, limit.aim, limit)
  const [least, most] = [subtract(figure.value, figure.rounding), add(figure.value, figure.rounding)]
  return (
    (!limit.lower || compare(most, limit.lower.value) >= 0) && (!limit.upper || compare(least, limit.upper.value) <= 0)
  )
}

function isNear(value: Rational, written: string | undefined, said: Limit, other: Rational, limit: Limit): boolean {
  const figure = inUnitOf(limit, said, value, written)
  if (figure === null) return true
  const difference = subtract(figure.value, other)
  const size = difference.numerator < 0n ? subtract(other, figure.value) : difference
  return compare(size, figure.rounding) <= 0
}

function inUnitOf(
  limit: Limit,
  said: Limit,
  value: Rational,
  written: string | undefined,
): { readonly value: Rational; readonly rounding: Rational } | null {
  const from = unitBySymbol(said.unit)
  const to = unitBySymbol(limit.unit)
  if (!from || !to) return null
  // In the unit of the block nothing had to be rounded; in another one it was.
  const { habit } = roundingOf({ value, written: from === to ? undefined : written }, said.kind)
  return { value: convertBetween(value, from, to), rounding: divide(multiply(habit, from.factor), to.factor) }
}
