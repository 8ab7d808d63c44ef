import type { Fault } from '../../findings/finding.ts'
import { comparePair, type PairFault, type PairPart, type PairPartFault } from '../../quantities/compare-pair.ts'
import { quantitiesIn } from '../../quantities/find-quantities-in-text.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import type { Limit } from '../../quantities/quantity-types.ts'
import { kindInWords } from '../../quantities/units.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText, type TypedText } from '../every-text.ts'
import { everyPairOfCells } from '../pairs-in-tables.ts'

/** Two numbers that should be one: `0.011 in (0.028 mm)`. Whoever reads the second works ten times too tight. */
export const pairDoesNotConvert: Check = {
  name: 'numbers/pair-does-not-convert',
  severity: 'error',
  title: 'A value and its second value in another unit are not the same.',
  rules: ['NU-10', 'NU-13', 'NU-21'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const said of everyText(procedure, written))
      for (const pair of pairsOf(said.typed)) {
        const faults = comparePair(pair.first, pair.second).filter((fault) => !isMeant(fault, pair, said))
        if (faults.length > 0) yield { at: said.placeOf(pair.typed), ...worded(faults, pair) }
      }
    for (const pair of everyPairOfCells(procedure, written)) {
      const faults = comparePair(pair.first, pair.second)
      if (faults.length > 0) yield { at: pair.at, ...worded(faults, pair) }
    }
  },
}

interface TypedPair {
  readonly typed: string
  readonly first: Limit
  readonly second: Limit
}

interface Pair extends TypedPair {
  /** Nothing else stands in the value. */
  readonly isWhole: boolean
}

/** A digit, and behind it what may introduce a second value. */
const canHoldPair = /\p{N}[^([/=]*[([/=]/u

/** A value that is a limit is taken as the limit it is; everything else is searched. */
const pairsOf = oncePer(({ text, isValue }: TypedText): readonly Pair[] => {
  // Most texts have no second value: this keeps them cheap.
  if (!canHoldPair.test(text)) return []
  const limit = isValue ? parseLimit(text) : null
  if (limit?.ok) {
    const { typed, pair } = limit.value
    const main = typed.slice(0, typed.lastIndexOf('(')).trim()
    return pair ? [{ typed, first: { ...limit.value, typed: main }, second: pair, isWhole: true }] : []
  }
  return quantitiesIn(text).pairs.map(({ first, second, from, to }) => ({
    typed: text.slice(from, to),
    first: first.limit,
    second: second.limit,
    isWhole: to - from === text.trim().length,
  }))
})

const energyWords = /\b(?:energy|energies|impacts?|blows?|absorbs?|stored)\b/i
const differenceWords =
  /\b(?:rises?|drops?|falls?|differences?|warmer|cooler|hotter|colder|apart|within|above|below|over|under|spread|more|less|by|changes?|every|each|per)\b/i

/** Words that make another thing of the figures: the energy of a blow in foot-pounds, a rise of so many degrees. */
function isMeant(fault: PairFault, pair: Pair, { text, isValue }: TypedText): boolean {
  // Two kinds in one value are refused where the value is read.
  if (fault.is === 'kind' && isValue && pair.isWhole) return true
  if (fault.is === 'kind') return [fault.first, fault.second].includes('energy') && energyWords.test(text)
  return fault.is === 'number' && fault.slip?.is === 'as-difference' && !isValue && differenceWords.test(text)
}

function worded(faults: readonly PairFault[], pair: TypedPair): Pick<Fault, 'message' | 'advice'> {
  return {
    message: `"${pair.typed}": ${faults.map((fault) => wrongIn(fault, pair)).join(' ')}`,
    advice: [...new Set(faults.map((fault) => adviceOn(fault, pair)))].join(' '),
  }
}

const parts: Readonly<Record<PairPart, string>> = {
  value: '',
  nominal: 'the nominal ',
  tolerance: 'the tolerance ',
  'lower tolerance': 'the lower tolerance ',
  'upper tolerance': 'the upper tolerance ',
  minimum: 'the minimum ',
  maximum: 'the maximum ',
}

function wrongIn(fault: PairFault, { first, second }: TypedPair): string {
  switch (fault.is) {
    case 'kind':
      return `the first is ${kindInWords(fault.first)}, the second ${kindInWords(fault.second)}.`
    case 'form':
      return `"${first.typed}" and "${second.typed}" do not give the same ends.`
    case 'ends-swapped':
      return 'the minimum of one is the maximum of the other.'
    case 'crossed':
      return 'in one of the units the minimum stands above the maximum.'
    case 'number':
      return `${parts[fault.part]}${fault.first} is ${fault.firstConverted}, not ${fault.second}.${whyWrong(fault, first.kind)}`
  }
}

const times = ['', 'ten', 'a hundred', 'a thousand']

function whyWrong({ slip, second, first, isTooCoarse }: PairPartFault, kind: string): string {
  if (isTooCoarse) return ' It is rounded by more than half of the band.'
  if (slip === null) return ''
  const factor = kind === 'length' ? ' (1 in is 25.4 mm)' : ''
  switch (slip.is) {
    case 'same-number':
      return ` The number is the same with both units: nothing was converted${factor}.`
    case 'power-of-ten':
      return ` ${second} is ${times[Math.abs(slip.exponent)]} times too ${slip.exponent > 0 ? 'small' : 'large'}.`
    case 'wrong-way':
      return ` It was converted the wrong way round${factor}.`
    case 'as-difference':
      return ' It was converted like a difference, without the 32 of the Fahrenheit scale.'
    case 'swapped-digits':
      return ` Two digits of ${slip.side === 'first' ? first : second} have changed places: ${slip.written}.`
    case 'other-unit':
      return ` ${slip.side === 'first' ? first : second} would be right in ${slip.unit}.`
  }
}

function adviceOn(fault: PairFault, { first, second }: TypedPair): string {
  switch (fault.is) {
    case 'kind':
      return `Type both in units of one kind, the one that is meant: "${first.typed}" or "${second.typed}".`
    case 'form':
      return 'Type the same limit in both units, or leave the second one out.'
    case 'ends-swapped':
    case 'crossed':
      return 'Type the smaller value first in both units.'
    case 'number':
      return fault.isTooCoarse
        ? `Type \`${fault.firstConverted}\`, or leave the second value out: it is printed anyway.`
        : `Look up which one is right. If ${fault.first} is, type \`${fault.firstConverted}\`; if ${fault.second} is, type \`${fault.secondConverted}\`.`
  }
}
