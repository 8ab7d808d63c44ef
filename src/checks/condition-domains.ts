import type { Consequence } from '../model/outcomes.ts'
import type { Procedure, Step } from '../model/procedure.ts'
import type { Reading } from '../model/readings.ts'
import type { State } from '../model/states.ts'
import type { Domain, NamedDomain } from '../quantities/condition-leaves.ts'
import type { Expression, NameNode } from '../quantities/expression.ts'
import { limitOfPrinted } from '../quantities/judge-reading.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import type { Limit } from '../quantities/quantity-types.ts'
import { rational, zero } from '../quantities/rational.ts'
import { unitBySpelling } from '../quantities/units.ts'
import { oncePer } from '../text/once-per.ts'
import { everyStep } from './every-step.ts'
import { usualAnswers } from './formula-names.ts'
import { baseNamesIn } from './formulas.ts'

interface PlacedReading {
  readonly reading: Reading
  readonly step: Step
  /** Of the repeat it stands in. */
  readonly position: string | null
}

/**
 * What the names of conditions can turn out to be, for conditions that stand in one position of a repeat, or in none.
 * With `afterElse`, a reading whose `else` leads elsewhere is taken to be in limit by then.
 */
export function domainsOf(
  procedure: Procedure,
  { afterElse }: { readonly afterElse: boolean },
): (here: string | null) => (node: NameNode) => NamedDomain | null {
  const placed = placedReadings(procedure)
  const attainable = attainableValues(procedure)
  return (here) => (node) => {
    const found = readingsNamed(node, here, placed)
    const isSettled = afterElse && node.which !== 'previous' && node.which !== 'first'
    if (found) return domainOfReadings(node, found, placed, isSettled)
    const variant = procedure.document.variants.find(({ name }) => name === node.name)
    if (variant) return choices(node.name, variant.values, 1)
    const state =
      procedure.states.find(({ id }) => id === node.name || (here !== null && id === `${node.name}.${here}`)) ?? null
    return state && choices(state.id, attainable(state), 1)
  }
}

const placedReadings = oncePer((procedure: Procedure): readonly PlacedReading[] =>
  everyStep(procedure).flatMap(({ step, phase }) =>
    step.readings.map((reading): PlacedReading => ({ reading, step, position: positionOf(phase) })),
  ),
)

export const positionOf = (phase: Procedure['phases'][number]): string | null => phase.position?.values[0]?.text ?? null

const choices = (name: string, values: readonly string[], places: number): NamedDomain => ({
  domain: { is: 'choices', values, passes: [], places },
  restsOn: [name],
})

/** Values that a state has at the start, or that some step gives it: the others are never seen. */
const attainableValues = oncePer((procedure: Procedure): ((state: State) => readonly string[]) => {
  const set = everyStep(procedure).flatMap(({ step }) => step.sets)
  return ({ id, start, values, implied }) => {
    if (implied) return values
    const given = set.filter(({ state }) => state === id).flatMap((change) => change.values)
    return values.filter((value) => value === start || given.includes(value))
  }
})

interface NamedReadings {
  readonly readings: readonly PlacedReading[]
  /** The place of the reading that is meant; null for all of them. */
  readonly field: string | null
}

function readingsNamed(
  { name, which }: NameNode,
  here: string | null,
  placed: readonly PlacedReading[],
): NamedReadings | null {
  const wholes = placed.filter(({ reading, position }) => {
    if (which === 'all' || name === `${reading.name}.all`)
      return name === reading.name || name === `${reading.name}.all`
    return prefixes(position, here).some((prefix) => name === reading.name + prefix)
  })
  if (wholes.length > 0) return { readings: wholes, field: null }
  for (const { reading, position } of placed)
    for (const field of reading.positions)
      for (const prefix of prefixes(position, here))
        if (name === `${reading.name}${prefix}.${field}`) {
          const same = placed.filter((one) => one.reading.name === reading.name && one.position === position)
          return { readings: same, field }
        }
  return null
}

function prefixes(position: string | null, here: string | null): readonly string[] {
  if (position === null) return ['']
  return position === here ? ['', `.${position}`] : [`.${position}`]
}

function domainOfReadings(
  node: NameNode,
  { readings, field }: NamedReadings,
  placed: readonly PlacedReading[],
  isSettled: boolean,
): NamedDomain | null {
  const [first] = readings
  if (!first) return null
  const places = field === null ? placesOf(readings) : 1
  const restsOn = [...new Set(readings.flatMap((one) => tokensOf(one, field, node.which, placed)))]
  const single = readings.length === 1 || isOneOverPositions(readings) ? first : null
  if (first.reading.kind === 'check') {
    if (readings.some(({ reading }) => reading.kind !== 'check')) return null
    return { domain: answersOf(first, isSettled && single !== null, places), restsOn }
  }
  const kind = kindOf(first.reading)
  if (readings.some(({ reading }) => reading.kind === 'check' || kindOf(reading) !== kind)) return null
  const line = lineOf(first.reading, kind, single, places)
  return { domain: isSettled ? line : { ...line, only: null }, restsOn }
}

/** The same reading in each position of a repeat. */
function isOneOverPositions(readings: readonly PlacedReading[]): boolean {
  return (
    new Set(readings.map(({ step }) => step.baseId)).size === 1 &&
    new Set(readings.map(({ position }) => position)).size === readings.length
  )
}

function placesOf(readings: readonly PlacedReading[]): number {
  const byPosition = new Map(readings.map(({ reading, position }) => [position, Math.max(1, reading.positions.length)]))
  return [...byPosition.values()].reduce((sum, places) => sum + places, 0)
}

function answersOf({ reading, step }: PlacedReading, isSingle: boolean, places: number): Domain {
  const named = reading.passes.length + reading.fails.length > 0
  const passes: readonly string[] = named ? reading.passes : usualAnswers.passes
  const fails: readonly string[] = named ? reading.fails : usualAnswers.fails
  const passesOnly = isSingle && leaves(step, reading, ['out'])
  return { is: 'choices', values: passesOnly ? passes : [...passes, ...fails], passes, places }
}

function lineOf(reading: Reading, kind: string, single: PlacedReading | null, places: number): Domain & { is: 'line' } {
  const isCount = reading.kind === 'count'
  const limit = single?.reading.limit ? limitOfPrinted(single.reading.limit) : null
  const total = isCount ? reading.facts.find(({ name }) => name === 'of')?.text : undefined
  return {
    is: 'line',
    kind,
    places,
    isWhole: isCount && kind === 'number',
    lowest: isCount || neverBelowNothing(reading.expression) ? zero : null,
    highest: total !== undefined && /^\d{1,9}$/.test(total) ? rational(Number(total)) : null,
    only: single && limit && limitKept(single, limit),
    limit: limit && reading.only === null ? limit : null,
  }
}

/** The part of the limit that the reading is in when the work gets here: where its `else` sends everything outside elsewhere. */
function limitKept({ step, reading }: PlacedReading, limit: Limit): Limit | null {
  const keepsAbove = limit.lower !== null && leaves(step, reading, ['out', 'low'])
  const keepsBelow = limit.upper !== null && leaves(step, reading, ['out', 'high'])
  if (!keepsAbove && !keepsBelow) return null
  return { ...limit, lower: keepsAbove ? limit.lower : null, upper: keepsBelow ? limit.upper : null }
}

/** Whether everything on these sides of the limit leads elsewhere. */
function leaves(step: Step, { id, name }: Reading, sides: readonly Consequence['on'][]): boolean {
  return step.consequences.some(
    (consequence) =>
      (consequence.reading === null || consequence.reading === id || consequence.reading === name) &&
      sides.includes(consequence.on) &&
      leadsElsewhere(consequence),
  )
}

function leadsElsewhere({ action, then }: Consequence): boolean {
  if (action === 'redo') return then === null || leadsElsewhere(then)
  return action !== 'continue'
}

function kindOf({ kind, limit, unit }: Reading): string {
  if (limit !== null) return limit.kind
  const found = unit === null ? null : unitBySpelling(unit)
  return found?.kind ?? (kind === 'count' ? 'number' : '')
}

/** `abs(…)`, `span(…)`, `max(a) - min(a)`: worked out, and never below nothing. */
function neverBelowNothing(formula: string | null): boolean {
  const parsed = formula === null ? null : parseExpression(formula)
  if (!parsed?.ok) return false
  const { value } = parsed
  if (value.is === 'call') return value.name === 'abs' || value.name === 'span' || value.name === 'count'
  if (value.is !== 'arithmetic' || value.operator !== '-') return false
  return isCallOf(value.left, 'max') && isCallOf(value.right, 'min')
}

const isCallOf = (node: Expression, name: string): boolean => node.is === 'call' && node.name === name

/** What a reading rests on: its own blanks, and for a worked-out value those of the readings in its formula. */
function tokensOf(
  { reading, position }: PlacedReading,
  field: string | null,
  which: NameNode['which'],
  placed: readonly PlacedReading[],
  depth = 0,
): readonly string[] {
  const age = which === 'previous' || which === 'first' ? `${which} ` : ''
  const fields = field === null ? (reading.positions.length > 0 ? reading.positions : ['']) : [field]
  const own = fields.map((one) => `${age}${reading.name}@${position ?? ''}#${one}`)
  if (reading.expression === null || depth > 8) return own
  const names = baseNamesIn(reading.expression)
  const below = placed.filter(
    (one) =>
      names.includes(one.reading.name) &&
      one.reading !== reading &&
      (position === null || one.position === null || one.position === position),
  )
  return [...own, ...below.flatMap((one) => tokensOf(one, null, which, placed, depth + 1))]
}
