import type { DecideItem, Job, JobItem, JobReading } from '../../outputs/page/job.ts'
import { evaluateExpression } from '../../quantities/evaluate-expression.ts'
import {
  type ExpressionValue,
  type ExpressionValues,
  holds,
  itemsInUnit,
  type NamedValue,
  valueOfQuantities,
} from '../../quantities/expression-values.ts'
import { limitOfPrinted } from '../../quantities/judge-reading.ts'
import { parseExpression } from '../../quantities/parse-expression.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { Limit, Quantity } from '../../quantities/quantity-types.ts'
import { exactPlaces, toDecimalText } from '../../quantities/rational.ts'
import { type JobState, type Reading, readingKey } from './job-log.ts'

/** Whether a condition holds by the readings taken; null while they do not say. */
export function conditionHolds(job: Job, state: JobState, at: JobItem, condition: string): boolean | null {
  const value = evaluated(job, state, at, condition)
  return value === null ? null : holds(value)
}

/** A derived value in the unit of its limit, `0.013 mm`; null while readings are missing. */
export function workedOut(job: Job, state: JobState, at: JobItem, reading: JobReading): string | null {
  if (reading.expression === null) return null
  const value = evaluated(job, state, at, reading.expression)
  const unit = reading.limit?.unit ?? reading.unit ?? ''
  const item = value === null ? undefined : itemsInUnit(value, unit)?.[0]
  if (item === undefined) return null
  // What never ends in decimals is cut far below what any limit tells apart.
  return `${toDecimalText(item, exactPlaces(item) ?? 9)} ${unit}`.trim()
}

/** Why the readings speak against a branch; empty where they do not. */
export function whyNotBranch(job: Job, state: JobState, item: DecideItem, index: number): string {
  const branch = item.branches[index]
  if (branch === undefined) return ''
  if (branch.when !== null)
    return conditionHolds(job, state, item, branch.when) === false
      ? `By your readings it is not so: ${branch.when}.`
      : ''
  const other = item.branches.find(({ when }) => when !== null && conditionHolds(job, state, item, when) === true)
  return branch.otherwise && other ? `By your readings it is: ${other.when}.` : ''
}

/** The branch that the readings lead to, or null where they do not settle it or people answer. */
export function branchByReadings(job: Job, state: JobState, item: DecideItem): number | null {
  const verdicts = item.branches.map(({ when }) => (when === null ? false : conditionHolds(job, state, item, when)))
  const first = verdicts.findIndex((verdict) => verdict !== false)
  if (first !== -1) return verdicts[first] === true ? first : null
  const otherwise = item.branches.findIndex((branch) => branch.otherwise)
  const byPeople = item.branches.some(({ when, otherwise: rest }) => when === null && !rest)
  return otherwise === -1 || byPeople ? null : otherwise
}

function evaluated(job: Job, state: JobState, at: JobItem, text: string): ExpressionValue | null {
  const expression = parseExpression(text)
  if (!expression.ok) return null
  const value = evaluateExpression(expression.value, knownValues(job, state, at))
  return value.ok ? value.value : null
}

/** Every reading by the names that mean it here: bare within the same position, with the position behind it elsewhere. */
function knownValues(job: Job, state: JobState, at: JobItem): ExpressionValues {
  const positionOf = new Map(job.phases.map(({ id, position }) => [id, position]))
  const here = positionOf.get(at.phase) ?? null
  const values = new Map<string, NamedValue>()
  const limits = new Map<string, Limit>()
  const everyPosition = new Map<string, ExpressionValue[]>()
  const put = (name: string, reading: JobReading, value: NamedValue): void => {
    values.set(name, value)
    const limit = reading.limit === null ? null : limitOfPrinted(reading.limit)
    if (limit !== null) limits.set(name, limit)
  }
  for (const item of job.items) {
    if (item.kind !== 'step') continue
    const position = positionOf.get(item.phase) ?? null
    for (const reading of item.readings) {
      const prefixes = position === null ? [''] : position === here ? ['', `.${position}`] : [`.${position}`]
      const whole = namedValue(reading, reading.positions, state)
      if (position !== null && whole.latest !== null)
        everyPosition.set(reading.name, [...(everyPosition.get(reading.name) ?? []), whole.latest])
      for (const prefix of prefixes) {
        put(`${reading.name}${prefix}`, reading, whole)
        for (const field of reading.positions)
          if (field !== null) put(`${reading.name}${prefix}.${field}`, reading, namedValue(reading, [field], state))
      }
    }
  }
  for (const [name, all] of everyPosition) values.set(`${name}.all`, { latest: joined(all) })
  for (const [name, value] of state.variants)
    values.set(name, { latest: { is: 'outcome', items: [value], isList: false } })
  return { values, limits, tables: new Map(job.tables.map((table) => [table.id, table])) }
}

/** The values of all positions of a repeat as one list. */
function joined(all: readonly ExpressionValue[]): ExpressionValue | null {
  const first = all[0]
  if (first?.is === 'outcome')
    return { ...first, items: all.flatMap((value) => (value.is === 'outcome' ? value.items : [])), isList: true }
  if (first?.is !== 'quantity') return null
  return { ...first, items: all.flatMap((value) => (value.is === 'quantity' ? value.items : [])), isList: true }
}

function namedValue(reading: JobReading, positions: JobReading['positions'], state: JobState): NamedValue {
  const keys = positions.map((position) => readingKey(reading.id, position))
  const latest = keys.map((key) => state.readings.get(key))
  const earlier = keys.map((key) => state.earlierReadings.get(key) ?? [])
  const entry = (entered: readonly (Reading | undefined)[]) => valueOfEntered(reading, entered, positions.length > 1)
  return {
    latest: entry(latest),
    previous: entry(earlier.map((tries) => tries.at(-1))),
    first: entry(earlier.map((tries, index) => tries[0] ?? latest[index])),
  }
}

function valueOfEntered(
  reading: JobReading,
  entered: readonly (Reading | undefined)[],
  isList: boolean,
): ExpressionValue | null {
  const typed = entered.flatMap((one) => (one === undefined || one.verdict === 'unreadable' ? [] : [one.typed]))
  if (typed.length === 0 || typed.length < entered.length) return null
  if (reading.kind === 'check') return { is: 'outcome', items: typed, isList }
  const quantities = typed.flatMap((text): readonly Quantity[] => {
    const parsed = parseQuantity(text, reading.limit?.kind)
    return parsed.ok ? [parsed.value] : []
  })
  return quantities.length < typed.length ? null : valueOfQuantities(quantities, isList)
}
