import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { Reading } from '../model/readings.ts'
import { fromBase, toBase } from '../quantities/convert.ts'
import { evaluateExpression } from '../quantities/evaluate-expression.ts'
import { type Expression, namesIn, type QuantityNode } from '../quantities/expression.ts'
import { type ExpressionValue, holds, type NamedValue } from '../quantities/expression-values.ts'
import { judgeValue, limitOfPrinted } from '../quantities/judge-reading.ts'
import { exactNumberText } from '../quantities/number-text.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import type { Limit, Rational } from '../quantities/quantity-types.ts'
import { compare, exactPlaces, multiply, rational, toExactText, zero } from '../quantities/rational.ts'
import { unitBySpelling, unitBySymbol } from '../quantities/units.ts'
import { domainsOf, positionOf } from './condition-domains.ts'
import { everyStep } from './every-step.ts'

/** A reading that conditions or formulas name: taken at the machine, or worked out. */
interface Named {
  readonly reading: Reading
  readonly formula: Expression | null
  /** What it can only be here, because the work went another way otherwise. */
  readonly only: Limit | null
  readonly isWhole: boolean
  /** A list of a length that nobody knows before: of what is found on the day. */
  readonly isFound: boolean
}

type Taken = ReadonlyMap<string, ExpressionValue>

const MOST_TRIALS = 5_000
/** Beside each figure that stands in a condition or formula: itself, and what lies around it. */
const AROUND = [rational(1), rational(2), rational(1, 2), rational(6, 5), rational(9, 10), zero]
/** How many are found where a number of things is found: none of the conditions can know. */
const FOUND = 50

/**
 * Readings for which none of the conditions holds, in words, where values rest on one another: figures around those typed
 * are tried, and every formula is worked out. What is found so is a gap; where nothing is found, nothing is claimed.
 */
export function triedGap(
  procedure: Procedure,
  { step, phase }: { readonly step: Step; readonly phase: Phase },
): string | null {
  if (step.when !== null || phase.when !== null) return null
  const conditions = readAll((step.decide?.branches ?? []).map(({ when }) => when ?? ''))
  const names = conditions && namedBy(conditions, procedure, phase)
  if (!conditions || !names || isSortedBefore(procedure, step, names)) return null
  const literals = [...conditions, ...[...names.values()].flatMap(({ formula }) => formula ?? [])].flatMap(quantitiesIn)
  const basic = [...names.values()].filter(({ formula }) => formula === null)
  const sights = basic.map((named) => sightsOf(named, literals))
  if (sights.reduce((product, { length }) => product * length, 1) > MOST_TRIALS) return null
  for (const choice of combinations(sights)) {
    const taken = workedOut(new Map(basic.map(({ reading }, index) => [reading.name, choice[index]])), names, procedure)
    if (taken === null) continue
    const known = knownFrom(taken, names, procedure)
    const answers = conditions.map((condition) => evaluateExpression(condition, known))
    if (answers.every((answer) => answer.ok && holds(answer.value) === false)) return inWords(taken, names, conditions)
  }
  return null
}

function readAll(texts: readonly string[]): readonly Expression[] | null {
  const read = texts.map((text) => (text.includes('??') ? null : parseExpression(text)))
  const values = read.flatMap((parsed) => (parsed?.ok ? [parsed.value] : []))
  return values.length === texts.length ? values : null
}

/** Every reading that the conditions rest on, by name; null where one of the names is something else, or not clear. */
function namedBy(
  conditions: readonly Expression[],
  procedure: Procedure,
  phase: Phase,
): ReadonlyMap<string, Named> | null {
  const here = positionOf(phase)
  const domains = domainsOf(procedure, { afterElse: true })(here)
  const names = new Map<string, Named>()
  const wanted = conditions.flatMap(namesIn)
  for (let node = wanted.pop(); node !== undefined; node = wanted.pop()) {
    if (node.which === 'previous' || node.which === 'first') return null
    const [name = ''] = node.name.split('.')
    if (names.has(name)) continue
    const everywhere = everyStep(procedure).flatMap((placed) =>
      placed.step.readings.filter((reading) => reading.name === name).map((reading) => ({ reading, ...placed })),
    )
    const inPhase = everywhere.filter((placed) => placed.phase === phase)
    const found = inPhase.length > 0 ? inPhase : everywhere.filter((placed) => positionOf(placed.phase) === null)
    const [one] = found
    const domain = domains({ ...node, name, which: 'latest' })?.domain
    if (!one || found.length > 1 || domain?.is !== 'line' || one.reading.workedLimit) return null
    // Where its `else` leads may depend on the pass.
    if (one.reading.limit && one.step.consequences.length > 0 && domain.only === null) return null
    const formula = one.reading.expression === null ? null : parseExpression(one.reading.expression)
    if (formula && !formula.ok) return null
    names.set(name, {
      reading: one.reading,
      formula: formula?.value ?? null,
      only: domain.only,
      isWhole: domain.isWhole,
      isFound: one.step.entries.some(({ key, data }) => key === 'repeat' && Object.hasOwn(Object(data), 'found')),
    })
    if (formula) wanted.push(...namesIn(formula.value))
  }
  return names
}

/** An earlier decision over the same readings has sent some of them elsewhere. */
function isSortedBefore(procedure: Procedure, step: Step, names: ReadonlyMap<string, Named>): boolean {
  const steps = everyStep(procedure).map((placed) => placed.step)
  return steps
    .slice(0, steps.indexOf(step))
    .filter(({ baseId }) => baseId !== step.baseId)
    .flatMap(({ when, decide }) => [when, ...(decide?.branches ?? []).map((branch) => branch.when)])
    .some((text) => text !== null && (readAll([text])?.[0] ? namesOf(text) : []).some((name) => names.has(name)))
}

const namesOf = (text: string): readonly string[] =>
  (readAll([text]) ?? []).flatMap(namesIn).map(({ name }) => name.split('.')[0] ?? '')

function quantitiesIn(node: Expression): readonly QuantityNode[] {
  switch (node.is) {
    case 'quantity':
      return [node]
    case 'name':
    case 'quoted':
    case 'in-limit':
      return []
    case 'negative':
    case 'not':
      return quantitiesIn(node.of)
    case 'arithmetic':
    case 'comparison':
    case 'logic':
      return [...quantitiesIn(node.left), ...quantitiesIn(node.right)]
    case 'call':
      return node.of.flatMap(quantitiesIn)
    case 'lookup':
      return node.keys.flatMap(quantitiesIn)
  }
}

/** What is tried for a reading: figures around those of its kind; for several places all alike, or one of them apart. */
function sightsOf({ reading, only, isWhole, isFound }: Named, literals: readonly QuantityNode[]): ExpressionValue[] {
  const unit = unitBySpelling(reading.limit?.unit ?? reading.unit ?? '')
  if (!unit) return []
  const typed = literals
    .filter(({ kind }) => kind === unit.kind)
    .flatMap((node) => {
      const own = unitBySymbol(node.unit)
      return own ? AROUND.map((factor) => toBase(multiply(node.value, factor), own)) : []
    })
  const values = distinct(typed.length > 0 ? typed : AROUND.map((factor) => toBase(factor, unit))).filter(
    (value) => (!isWhole || value.denominator === 1n) && isWithin(only, value),
  )
  const as = (items: readonly Rational[], isList: boolean): ExpressionValue => ({
    is: 'quantity',
    kind: unit.kind,
    items,
    isList,
  })
  const places = isFound ? FOUND : reading.positions.length
  if (places < 2) return values.map((value) => as([value], false))
  return values.flatMap((value) =>
    values.map((apart) => as([apart, ...Array.from({ length: places - 1 }, () => value)], true)),
  )
}

function distinct(values: readonly Rational[]): readonly Rational[] {
  return values.filter((value, index) => values.findIndex((other) => compare(other, value) === 0) === index)
}

function isWithin(limit: Limit | null, value: Rational): boolean {
  const unit = limit && unitBySymbol(limit.unit)
  return !limit || !unit || judgeValue(limit, fromBase(value, unit)).verdict === 'in'
}

function* combinations<T>(sights: readonly (readonly T[])[], from = 0): Iterable<readonly T[]> {
  const own = sights[from]
  if (own === undefined) {
    yield []
    return
  }
  for (const one of own) for (const rest of combinations(sights, from + 1)) yield [one, ...rest]
}

/** The readings with everything that is worked out of them; null where that cannot be, or the work has gone elsewhere then. */
function workedOut(
  basic: ReadonlyMap<string, ExpressionValue | undefined>,
  names: ReadonlyMap<string, Named>,
  procedure: Procedure,
): Taken | null {
  const taken = new Map([...basic].flatMap(([name, value]) => (value ? [[name, value] as const] : [])))
  const waiting = [...names.values()].filter(({ formula }) => formula !== null)
  for (let turn = waiting.length; turn > 0; turn--) {
    for (const { reading, formula, only } of waiting) {
      if (taken.has(reading.name) || formula === null) continue
      const value = evaluateExpression(formula, knownFrom(taken, names, procedure))
      if (!value.ok) continue
      if (value.value.is !== 'quantity') return null
      // A clearance below nothing, a part that is more than the whole: what the machine cannot show is no gap.
      const { items } = value.value
      if (items.some((item) => compare(item, zero) < 0 || !isWithin(only, item))) return null
      taken.set(reading.name, value.value)
    }
  }
  return taken.size === names.size ? taken : null
}

function knownFrom(taken: Taken, names: ReadonlyMap<string, Named>, { tables }: Procedure) {
  const values = new Map<string, NamedValue>()
  const limits = new Map<string, Limit>()
  for (const [name, value] of taken) {
    const { reading } = names.get(name) ?? {}
    values.set(name, { latest: value })
    reading?.positions.forEach((position, index) => {
      const item = value.is === 'quantity' ? value.items[index] : undefined
      if (item && value.is === 'quantity')
        values.set(`${name}.${position}`, { latest: { ...value, items: [item], isList: false } })
    })
    const limit = reading?.limit ? limitOfPrinted(reading.limit) : null
    if (limit) limits.set(name, limit)
  }
  return { values, limits, tables: new Map(tables.map((table) => [table.id, table])) }
}

/** `absorption is 2, r10 is 5 MΩ and r60 is 10 MΩ`: what the conditions name first, then what it came from. */
function inWords(taken: Taken, names: ReadonlyMap<string, Named>, conditions: readonly Expression[]): string {
  const asked = new Set(conditions.flatMap(namesIn).map(({ name }) => name.split('.')[0]))
  const say = (name: string) => `${name} is ${valueInWords(taken.get(name), names.get(name)?.reading)}`
  const all = [...names.keys()].reverse()
  const [first, rest] = [
    all.filter((name) => asked.has(name)),
    all.filter((name) => !asked.has(name) && names.get(name)?.formula === null),
  ]
  const listed = (words: readonly string[]) =>
    [words.slice(0, -1).join(', '), words.at(-1)].filter(Boolean).join(' and ')
  return `${listed(first.map(say))}${rest.length > 0 ? ` (as when ${listed(rest.map(say))})` : ''}`
}

function valueInWords(value: ExpressionValue | undefined, reading: Reading | undefined): string {
  if (value?.is !== 'quantity') return ''
  const unit = unitBySpelling(reading?.limit?.unit ?? reading?.unit ?? '')
  const say = (item: Rational) => {
    const own = unit && unit.kind === value.kind ? unit : null
    const number = own ? fromBase(item, own) : item
    const places = exactPlaces(number)
    const text = places === null ? `about ${exactNumberText(rounded(number))}` : exactNumberText(number)
    return own && own.symbol !== '' ? `${text} ${own.symbol}` : text
  }
  const [apart, ...others] = value.items
  if (apart === undefined) return ''
  const other = others[0]
  if (other === undefined || toExactText(other) === toExactText(apart))
    return `${other ? 'everywhere ' : ''}${say(apart)}`
  return `${say(apart)} at one place and ${say(other)} at ${others.length === 1 ? 'the other' : `the other ${others.length}`}`
}

/** To a thousandth. */
const rounded = (value: Rational): Rational =>
  rational((value.numerator * 1000n + value.denominator / 2n) / value.denominator, 1000n)
