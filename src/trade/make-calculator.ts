import { fromBase } from '../quantities/convert.ts'
import { withUnit } from '../quantities/number-text.ts'
import type { QuantityKind, Rational } from '../quantities/quantity-types.ts'
import { absolute, compare, isZero, rational, toExactText } from '../quantities/rational.ts'
import type { Unit } from '../quantities/unit-table.ts'
import { kindInWords, unitBySymbol } from '../quantities/units.ts'
import { nearestName } from '../text/nearest-name.ts'
import { refuse } from './answer.ts'
import type { Calculation, Calculator, CalculatorInput, CalculatorProblem, CalculatorResult } from './calculator.ts'
import { type Amount, type ReadInput, readInput, type System } from './read-inputs.ts'
import { sensibleDecimal } from './sensible-decimal.ts'

/** Makes a calculator of a recipe: reads the texts, has the sums done in base units, writes the results out. */

/** An input as a recipe says it; its name is its key. */
export interface InputRecipe {
  readonly what: string
  readonly kind: QuantityKind | 'word' | 'size' | 'text' | 'any' | 'any-difference'
  readonly unit?: string
  readonly symbol?: string
  readonly optional?: true
  readonly list?: true
  readonly choices?: readonly string[]
  /** `positive` unless said: above 0. `not-negative`: 0 too. Temperatures may always be anything. */
  readonly sign?: 'positive' | 'not-negative' | 'any'
}

type ItemOf<I extends InputRecipe> = I['kind'] extends 'word' | 'size' | 'text'
  ? string
  : I['kind'] extends 'any' | 'any-difference'
    ? Amount
    : Rational
type ValueOf<I extends InputRecipe> = I extends { readonly list: true } ? readonly ItemOf<I>[] : ItemOf<I>
/** What `work` gets: quantities as rationals in the base unit of their kind (SI; a full turn for angles), words as chosen. */
export type GivenOf<Inputs extends Readonly<Record<string, InputRecipe>>> = {
  readonly [Name in keyof Inputs]: Inputs[Name] extends { readonly optional: true }
    ? ValueOf<Inputs[Name]> | null
    : ValueOf<Inputs[Name]>
}

/** One number of `work`. */
interface NumberFigure {
  readonly name: string
  readonly what: string
  readonly kind: QuantityKind
  /**
   * Unit for metric and for inch work, unless one of the kind was typed; one alone is kept whatever was typed; left out for plain numbers.
   */
  readonly units?: readonly [metric: string, inch: string] | readonly [both: string]
  /** In the base unit of the kind. */
  readonly value: Rational
  /** Set where a root, π or a rounded table stands behind it. */
  readonly isRounded?: true
  /** Most significant digits to show; 5 unless said. */
  readonly digits?: number
  /** `down` for what must not be exceeded, `up` for what must be reached. */
  readonly rounding?: 'up' | 'down'
}

/** One result of `work`. */
export type Figure = NumberFigure | { readonly name: string; readonly what: string; readonly word: string }

/** What `work` gives back. */
export type Work =
  | { readonly ok: true; readonly figures: readonly Figure[]; readonly notes?: readonly string[] }
  | { readonly ok: false; readonly problem: CalculatorProblem }

export interface CalculatorRecipe<Inputs extends Readonly<Record<string, InputRecipe>>> {
  readonly name: string
  readonly what: string
  readonly formula: string
  readonly validity: string
  readonly source: string
  readonly inputs: Inputs
  readonly work: (given: GivenOf<Inputs>) => Work
}

export function makeCalculator<const Inputs extends Readonly<Record<string, InputRecipe>>>(
  recipe: CalculatorRecipe<Inputs>,
): Calculator {
  const { name, what, formula, validity, source, work } = recipe
  const recipes: Readonly<Record<string, InputRecipe>> = recipe.inputs
  const inputs = Object.entries(recipes).map(([inputName, input]) => inputOf(inputName, input))
  const run = (given: ReadonlyMap<string, string>): Calculation => {
    const stray = [...given.keys()].find((key) => !Object.hasOwn(recipes, key))
    if (stray !== undefined) return strayInput(name, stray, Object.keys(recipes))
    const read: Record<string, ReadInput> = {}
    for (const [inputName, input] of Object.entries(recipes)) {
      const value = readInput(inputName, input, given.get(inputName))
      if (!value.ok) return value
      read[inputName] = value.value
    }
    const values = Object.fromEntries(Object.entries(read).map(([key, { value }]) => [key, value]))
    const worked = workSafely(() => work(values as GivenOf<Inputs>))
    if (!worked.ok) return worked
    const results = worked.figures.map((figure) => resultOf(figure, Object.values(read)))
    const putIn = inputs
      .filter((input) => (given.get(input.name) ?? '').trim() !== '')
      .map((input) => `${input.symbol ?? input.name} = ${(given.get(input.name) ?? '').trim().replace(/\s+/g, ' ')}`)
    const working = [
      formula,
      ...(putIn.length > 0 ? [putIn.join('; ')] : []),
      ...results.map(({ what: whatItIs, value, unit }) => `${whatItIs} = ${withSymbol(value, unit)}`),
      ...(worked.notes ?? []),
    ]
    return { ok: true, results, working }
  }
  return { name, what, formula, validity, source, inputs, run }
}

/** Numbers of a size that no machine has leave the range of binary numbers: roots and powers then have no value. */
function workSafely(work: () => Work): Work {
  try {
    return work()
  } catch (error) {
    if (!(error instanceof RangeError)) throw error
    return refuse(
      null,
      'The numbers are too large or too small to work with.',
      'Look at the numbers and their units once more.',
    )
  }
}

function inputOf(name: string, { what, kind, unit, symbol, optional, list, choices }: InputRecipe): CalculatorInput {
  return {
    name,
    what,
    kind,
    unit: unit ?? null,
    ...(symbol ? { symbol } : {}),
    ...(optional ? { optional } : {}),
    ...(list ? { list } : {}),
    ...(choices ? { choices } : {}),
  }
}

function strayInput(name: string, stray: string, known: readonly string[]) {
  const near = nearestName(stray, known)
  const meant = near === null ? '' : `Did you mean ${near}? `
  return refuse(stray, `${name} has no input "${stray}".`, `${meant}It takes ${known.join(', ')}.`)
}

function withSymbol(value: string, symbol: string): string {
  const unit = unitBySymbol(symbol)
  return unit ? withUnit(value, unit) : value
}

function resultOf(figure: Figure, read: readonly ReadInput[]): CalculatorResult {
  if ('word' in figure)
    return { ...namesOf(figure), value: figure.word, exact: null, worked: null, unit: '', kind: 'word' }
  const unit = unitOf(figure, read)
  const value = fromBase(figure.value, unit)
  const worked = toExactText(value)
  return {
    ...namesOf(figure),
    value: sensibleDecimal(value, figure.digits, figure.rounding),
    exact: figure.isRounded ? null : worked,
    worked,
    unit: unit.symbol,
    kind: figure.kind,
  }
}

const leastInTyped = rational(1, 1000)
const mostInTyped = rational(1_000_000)

/** The unit that was typed for the same kind, unless it makes the number unwieldy; else the one of the family typed most. */
function unitOf({ name, kind, units = [''], value }: NumberFigure, read: readonly ReadInput[]): Unit {
  const [metric = '', inch = metric] = units
  const usual = unitBySymbol(systemOf(read) === 'inch' ? inch : metric)
  if (!usual || usual.kind !== kind) throw new Error(`${name}: ${metric} and ${inch} are not ${kindInWords(kind)}`)
  if (units.length < 2) return usual
  const typed = read.find((each) => each.typed?.kind === kind)?.typed
  const unit = typed ? unitBySymbol(typed.unit) : null
  if (!unit) return usual
  const size = absolute(fromBase(value, unit))
  const isHandy = isZero(size) || (compare(size, leastInTyped) >= 0 && compare(size, mostInTyped) < 0)
  return isHandy ? unit : usual
}

function namesOf({ name, what }: Figure): { readonly name: string; readonly what: string } {
  return { name, what }
}

/** The family most of the inputs were typed in; metric where nothing tells. */
function systemOf(read: readonly ReadInput[]): System {
  const votes = read.flatMap(({ system }) => (system === null ? [] : [system]))
  return votes.filter((vote) => vote === 'inch').length * 2 > votes.length ? 'inch' : 'metric'
}
