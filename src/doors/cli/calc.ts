import { withUnit } from '../../quantities/number-text.ts'
import { kindInWords, unitBySymbol } from '../../quantities/units.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { Calculation, Calculator, CalculatorInput } from '../../trade/calculator.ts'
import { inColumns } from './columns.ts'
import { exitStatus } from './exit-status.ts'
import type { Program } from './program.ts'
import type { Surroundings } from './surroundings.ts'

export interface CalcOptions {
  readonly list: boolean
  readonly json: boolean
}

/** Stands under every result. */
const caution =
  'A figure is no permission. Local law, site rules, the maker’s instructions and the qualified person on site decide.'

/**
 * `witnessmark calc bolt-torque size=M20 …`: works out one thing of the trade, with its formula and source.
 * Without a name, or with `--list`: every calculator. Gives 0, or 2 for what cannot be worked out as typed.
 */
export function calc(
  name: string | undefined,
  typed: readonly string[],
  options: CalcOptions,
  program: Program,
  surroundings: Surroundings,
): number {
  const wrongUse = (sentence: string) => {
    surroundings.say(`${sentence}\n`)
    return exitStatus({ wrongUse: true, failed: false })
  }
  if (name === undefined || options.list) {
    if (name !== undefined) return wrongUse('“--list” lists every calculator and takes no name.')
    surroundings.print(options.json ? listAsJson(program.calculators) : listAsText(program.calculators))
    return exitStatus({ wrongUse: false, failed: false })
  }
  const calculator = program.calculators.find((each) => each.name === name)
  if (!calculator) return wrongUse(unknownCalculator(name, program.calculators))
  const given = readGiven(typed, calculator)
  if (typeof given === 'string') return wrongUse(given)
  const missing = calculator.inputs.filter((input) => !input.optional && !given.has(input.name))
  if (missing.length > 0) return wrongUse(missingInputs(calculator, missing))
  const calculation = calculator.run(given)
  if (!calculation.ok) return wrongUse(refusal(calculation, calculator))
  surroundings.print(options.json ? asJson(calculator, given, calculation) : asText(calculator, calculation))
  return exitStatus({ wrongUse: false, failed: false })
}

/** The inputs by name, or a sentence that says what was typed wrongly. Blank values count as not given. */
function readGiven(typed: readonly string[], calculator: Calculator): ReadonlyMap<string, string> | string {
  const given = new Map<string, string>()
  const names = calculator.inputs.map((input) => input.name)
  for (const word of typed) {
    const equals = word.indexOf('=')
    if (equals < 1)
      return `“${word}” is no input. Type its name, an equals sign and its value, such as ${example(calculator)}.`
    const name = word.slice(0, equals).trim()
    const value = word.slice(equals + 1).trim()
    if (!names.includes(name)) {
      const near = nearestName(name, names)
      return `${calculator.name} has no input ${name}. ${near === null ? `It takes ${names.join(', ')}.` : `Did you mean ${near}?`}`
    }
    if (given.has(name)) return `${name} is given twice. Give it once.`
    if (value !== '') given.set(name, value)
  }
  return given
}

function example({ inputs }: Calculator): string {
  const first = inputs.find((input) => !input.optional) ?? inputs[0]
  return first ? `${first.name}=…` : 'name=…'
}

function missingInputs(calculator: Calculator, missing: readonly CalculatorInput[]): string {
  const one = missing.length === 1
  const lines = inColumns(missing.map(described))
  const others = calculator.inputs.filter((input) => input.optional)
  const more = others.length === 0 ? '' : `\nIt also takes:\n${inColumns(others.map(described))}`
  return `${calculator.name} needs ${one ? 'one more input' : `${missing.length} more inputs`}:\n${lines}${more}`.trimEnd()
}

function described(input: CalculatorInput): readonly string[] {
  return [input.name, `${input.what}: ${wanted(input)}`]
}

/** "a length, such as mm", "one of: dry, oiled", "several lengths". */
function wanted({ kind, unit, choices, list }: CalculatorInput): string {
  const several = list ? 'several, with ; between them; each ' : ''
  if (choices) return `${several}one of: ${choices.join(', ')}`
  if (kind === 'size') return `${several}a size, such as 1/2-13 or M20`
  if (kind === 'word') return `${several}a word`
  return `${several}${kindInWords(kind)}${unit ? `, such as in ${unit}` : ''}`
}

function refusal(calculation: Extract<Calculation, { ok: false }>, calculator: Calculator): string {
  const { input: name, message, advice } = calculation.problem
  const input = calculator.inputs.find((each) => each.name === name)
  const kind = input ? `\n${inColumns([described(input)])}` : ''
  return `${message} ${advice}${kind}`.trimEnd()
}

function unknownCalculator(name: string, calculators: readonly Calculator[]): string {
  const near = nearestName(
    name,
    calculators.map((each) => each.name),
  )
  const advice = near === null ? 'Type “witnessmark calc --list” to see every name.' : `Did you mean ${near}?`
  return `There is no calculator named ${name}. ${advice}`
}

function asText(calculator: Calculator, { results, working }: Extract<Calculation, { ok: true }>): string {
  const figures = results.map(({ name, value, unit, what }) => [name, figure(value, unit), what])
  const steps = working.filter((line) => line !== calculator.formula)
  const about = [
    ['formula', calculator.formula],
    ...steps.map((line, place) => [place === 0 ? 'worked out' : '', line]),
    ['holds for', calculator.validity],
    ['source', calculator.source],
  ]
  return `${calculator.name}: ${calculator.what}\n\n${inColumns(figures)}\n${inColumns(about)}\n${caution}\n`
}

/** `60°`, `75 lbf·ft`, `2`, `allowed`. */
function figure(value: string, symbol: string): string {
  const unit = unitBySymbol(symbol)
  return unit ? withUnit(value, unit) : `${value} ${symbol}`.trim()
}

function asJson(
  { name, formula, validity, source }: Calculator,
  given: ReadonlyMap<string, string>,
  { results, working }: Extract<Calculation, { ok: true }>,
): string {
  const byName = Object.fromEntries(
    results.map(({ name: result, value, exact, worked, unit, kind }) => [result, { value, exact, worked, unit, kind }]),
  )
  return `${JSON.stringify(
    { name, inputs: Object.fromEntries(given), results: byName, formula, validity, source, working, caution },
    null,
    2,
  )}\n`
}

function listAsText(calculators: readonly Calculator[]): string {
  return inColumns(calculators.map(({ name, what }) => [name, what]))
}

function listAsJson(calculators: readonly Calculator[]): string {
  const about = calculators.map(({ run: _, ...calculator }) => calculator)
  return `${JSON.stringify(about, null, 2)}\n`
}
