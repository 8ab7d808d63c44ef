import {
  type ExpressionValue,
  type ExpressionValues,
  type NamedValue,
  type Uncertainty,
  valueOfQuantities,
} from '../quantities/expression-values.ts'
import { limitOfPrinted } from '../quantities/judge-reading.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import type { Limit, Quantity } from '../quantities/quantity-types.ts'
import { fromExactText } from '../quantities/rational.ts'
import { unitBySymbol } from '../quantities/units.ts'
import { workOutLimit } from '../quantities/worked-limit.ts'
import type { Job, JobItem, JobReading, StepItem } from './job.ts'
import { type JobState, type Reading, readingKey } from './job-state.ts'
import { everyReading, positionOf } from './readings-meant.ts'
import { statesNow } from './standing.ts'

/** Every reading by the names that mean it here: bare within the same position, with the position behind it elsewhere. */
export function knownValues(job: Job, state: JobState, at: JobItem): ExpressionValues {
  const known = valuesTaken(job, state, at)
  for (const { item, reading, names } of known.worked) {
    const sameHere = positionOf(job, item) === positionOf(job, at)
    const limit = workOutLimit(reading.workedLimit, sameHere ? known : valuesTaken(job, state, item))
    if (limit.ok) for (const name of names) known.limits.set(name, limit.value)
  }
  return known
}

interface TakenValues extends ExpressionValues {
  readonly limits: Map<string, Limit>
  /** Readings whose limit rests on other readings. */
  readonly worked: readonly {
    readonly item: StepItem
    readonly reading: JobReading & { readonly workedLimit: NonNullable<JobReading['workedLimit']> }
    readonly names: readonly string[]
  }[]
}

function valuesTaken(job: Job, state: JobState, at: JobItem): TakenValues {
  const here = positionOf(job, at)
  const values = new Map<string, NamedValue>()
  const limits = new Map<string, Limit>()
  const passes = new Map<string, readonly string[]>()
  const uncertainties = new Map<string, Uncertainty>()
  const everyPosition = new Map<string, ExpressionValue[]>()
  const worked: TakenValues['worked'][number][] = []
  for (const { item, reading } of everyReading(job, state)) {
    const position = positionOf(job, item)
    const prefixes = position === null ? [''] : position === here ? ['', `.${position}`] : [`.${position}`]
    const whole = namedValue(reading, reading.positions, state)
    if (position !== null && whole.latest !== null)
      everyPosition.set(reading.name, [...(everyPosition.get(reading.name) ?? []), whole.latest])
    const names: string[] = []
    const put = (name: string, value: NamedValue): void => {
      // A name that is read in several steps means the last one taken.
      if (value.latest === null && values.get(name)?.latest) return
      values.set(name, followedBy(values.get(name), value))
      names.push(name)
      const limit = reading.limit === null ? null : limitOfPrinted(reading.limit)
      if (limit !== null) limits.set(name, limit)
      if (reading.passes.length > 0) passes.set(name, reading.passes)
      const uncertainty = uncertaintyOf(reading)
      if (uncertainty !== null) uncertainties.set(name, uncertainty)
    }
    for (const prefix of prefixes) {
      put(`${reading.name}${prefix}`, whole)
      for (const field of reading.positions)
        if (field !== null) put(`${reading.name}${prefix}.${field}`, namedValue(reading, [field], state))
    }
    const { workedLimit } = reading
    if (workedLimit !== null) worked.push({ item, reading: { ...reading, workedLimit }, names })
  }
  for (const [name, all] of everyPosition) values.set(`${name}.all`, { latest: joined(all) })
  for (const [id, value] of statesNow(job, state)) {
    // A reading of the same name wins; a state of this position is meant without it, too.
    const known = { latest: { is: 'outcome', items: [value], isList: false } } as const
    const near = here !== null && id.endsWith(`.${here}`) ? [id, id.slice(0, -here.length - 1)] : [id]
    for (const name of near) if (!values.has(name)) values.set(name, known)
  }
  for (const [name, value] of state.variants)
    values.set(name, { latest: { is: 'outcome', items: [value], isList: false } })
  const tables = new Map(job.tables.map((table) => [table.id, table]))
  return { values, limits, passes, uncertainties, tables, worked }
}

/** The uncertainty of a reading as a number, or null where simple acceptance is meant. */
export function uncertaintyOf({ uncertainty }: JobReading): Uncertainty | null {
  const value = uncertainty && fromExactText(uncertainty.exact)
  return uncertainty && value ? { value, unit: uncertainty.unit } : null
}

/** One name, read in one step and later in another. */
function followedBy(before: NamedValue | undefined, now: NamedValue): NamedValue {
  if (!before?.latest) return now
  return { latest: now.latest, previous: now.previous ?? before.latest, first: before.first ?? before.latest }
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
  const latest = keys.map((key) => (state.spoiled.has(key) ? undefined : state.readings.get(key)))
  const taken = keys.map((key) => state.readings.get(key))
  const earlier = keys.map((key) => state.earlierReadings.get(key) ?? [])
  const entry = (entered: readonly (Reading | undefined)[]) => valueOfEntered(reading, entered, positions.length > 1)
  return {
    latest: entry(latest),
    previous: entry(earlier.map((tries) => tries.at(-1))),
    first: entry(earlier.map((tries, index) => tries[0] ?? taken[index])),
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
  const kind = reading.limit?.kind ?? unitBySymbol(reading.workedLimit?.unit ?? '')?.kind
  const quantities = typed.flatMap((text): readonly Quantity[] => {
    const parsed = parseQuantity(text, reading.limit === null && reading.workedLimit === null ? undefined : kind)
    return parsed.ok ? [parsed.value] : []
  })
  return quantities.length < typed.length ? null : valueOfQuantities(quantities, isList)
}
