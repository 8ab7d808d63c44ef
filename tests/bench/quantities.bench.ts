import { judge } from '../../src/quantities/judge-reading.ts'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import { limitTextIn, printLimit } from '../../src/quantities/print-limit.ts'
import type { Limit } from '../../src/quantities/quantity-types.ts'
import { unitBySymbol } from '../../src/quantities/units.ts'
import { asTable, measure, seededChoice } from './measure.ts'

/*
 * What the bench asks of quantities: every text is made once and read once, in all rounds together. `src/quantities` keeps nothing
 * between two calls but its table of units, so nothing is warm but the engine.
 */

const choose = seededChoice(20260302)
const seen = new Set<string>()
const pick = <T>(list: readonly T[]): T => list[choose(list.length)] as T

/** Units as procedures write them, with sizes that occur, and a unit that the other trade family reads. */
const units = [
  { written: ['N·m', 'Nm', 'N m'], most: 900, decimals: 0, other: 'lbf·ft' },
  { written: ['lbf·ft', 'ft-lb', 'lb-ft'], most: 700, decimals: 0, other: 'N·m' },
  { written: ['mm'], most: 400, decimals: 2, other: 'in' },
  { written: ['in', 'inch', '"'], most: 20, decimals: 4, other: 'mm' },
  { written: ['kPa'], most: 1200, decimals: 0, other: 'psi' },
  { written: ['psi'], most: 6000, decimals: 0, other: 'bar' },
  { written: ['°C', 'deg C'], most: 120, decimals: 1, other: '°F' },
  { written: ['°F'], most: 250, decimals: 0, other: '°C' },
  { written: ['kg'], most: 3000, decimals: 1, other: 'lb' },
  { written: ['L/min'], most: 200, decimals: 1, other: 'US gal/min' },
] as const

function number(most: number, decimals: number): number {
  const steps = 10 ** decimals
  return (1 + choose(most * steps)) / steps
}

function limitText(): { readonly text: string; readonly middle: number; readonly other: string } {
  const unit = pick(units)
  const name = pick(unit.written)
  const value = number(unit.most, unit.decimals)
  const say = (figure: number) => figure.toFixed(unit.decimals)
  const step = 10 ** -unit.decimals
  const forms = [
    () => `max ${say(value)} ${name}`,
    () => `min ${say(value)} ${name}`,
    () => `${say(value)} to ${say(value + step * (1 + choose(50)))} ${name}`,
    () => `${say(value)} ± ${say(step * (1 + choose(20)))} ${name}`,
    () => `${say(value)} ${name} +${say(step * (1 + choose(9)))}/-${say(step * (1 + choose(9)))}`,
    () =>
      name.startsWith('deg') || name.startsWith('°')
        ? `under ${say(value)} ${name}`
        : `${say(value)} ${name} ± ${1 + choose(10)} %`,
    () => `max ${choose(9)}-${1 + 2 * choose(16)}/32 in`,
  ]
  return { text: pick(forms)(), middle: value, other: unit.other }
}

function fresh<T>(count: number, make: () => { readonly key: string; readonly value: T }): readonly T[] {
  const made: T[] = []
  while (made.length < count) {
    const { key, value } = make()
    if (seen.has(key)) continue
    seen.add(key)
    made.push(value)
  }
  return made
}

const limitTexts = (count: number) =>
  fresh(count, () => {
    const { text } = limitText()
    return { key: text, value: text }
  })

function read(text: string): Limit {
  const limit = parseLimit(text)
  if (!limit.ok) throw new Error(`${text}: ${limit.problem.message}`)
  return limit.value
}

function inOtherFamily(limit: Limit): string | null {
  const unit = unitBySymbol(limit.unit)
  const other = unit?.counterpart === undefined ? null : unitBySymbol(unit.counterpart)
  return other && limitTextIn(limit, other)
}

interface ToJudge {
  readonly limit: Limit
  readonly reading: string
}

const readings = (inOtherUnit: boolean) => (count: number) =>
  fresh<ToJudge>(count, () => {
    const { text, middle, other } = limitText()
    const figure = (middle * (50 + choose(100))) / 100
    const limit = read(text)
    const isOther = inOtherUnit && unitBySymbol(other)?.kind === limit.kind
    const reading = `${figure.toFixed(choose(4))}${isOther ? ` ${other}` : ''}`
    return { key: `${text} ← ${reading}`, value: { limit, reading } }
  })

const readingText = ({ limit, reading }: ToJudge) => `${limit.typed}${reading}`
const same = (text: string) => text

const rows = [
  measure({
    what: 'read a limit and convert it inward to the other family',
    target: 20,
    inputs: limitTexts,
    text: same,
    run: (text) => inOtherFamily(read(text)),
  }),
  measure({
    what: 'read a limit and print it in both families, with its aim',
    target: null,
    inputs: limitTexts,
    text: same,
    run: (text) => printLimit(read(text), { systems: ['metric', 'inch'] }),
  }),
  measure({ what: 'read a limit', target: null, inputs: limitTexts, text: same, run: read }),
  measure({
    what: 'judge a reading in the unit of its limit',
    target: 10,
    inputs: readings(false),
    text: readingText,
    run: ({ limit, reading }) => judge(limit, reading),
  }),
  measure({
    what: 'judge a reading in the other family’s unit',
    target: 10,
    inputs: readings(true),
    text: readingText,
    run: ({ limit, reading }) => judge(limit, reading),
  }),
]

process.stdout.write(asTable(rows))
