import { fromExactText, zero } from '../../src/quantities/rational.ts'
import type { Calculation, Calculator } from '../../src/trade/calculator.ts'
import type { CaseFile, CaseValue, PublishedCase } from './case-file.ts'
import { symbolOf } from './case-units.ts'
import { difference } from './compare.ts'
import type { CalculatorMapping, CaseMapping, Outcome } from './mapping.ts'

export interface CaseResult {
  readonly id: string
  readonly basis: string
  readonly status: 'passed' | 'failed' | 'unmapped'
  readonly detail: string
}

export function runFile(
  file: CaseFile,
  mappings: readonly CaseMapping[],
  calculators: readonly Calculator[],
): readonly CaseResult[] {
  return file.cases.map((each) => runCase(each, mappings, calculators))
}

/** Tries the mappings that fit the names, the closest first, and holds the first one that takes the inputs to the expected values. */
export function runCase(
  published: PublishedCase,
  mappings: readonly CaseMapping[],
  calculators: readonly Calculator[],
): CaseResult {
  const { id, basis } = published
  const fitting = mappings
    .map((mapping) => ({ mapping, spare: spareNames(mapping, published) }))
    .filter((each): each is { mapping: CaseMapping; spare: number } => each.spare !== null)
    .toSorted((a, b) => a.spare - b.spare)
  if (fitting.length === 0) return { id, basis, status: 'unmapped', detail: namesOf(published) }
  let refusal = ''
  for (const { mapping } of fitting) {
    const worked = outcomesOf(mapping, published, calculators)
    if (typeof worked === 'string') {
      refusal ||= worked
      continue
    }
    const wrong = [...published.expected].flatMap(([name, expected]) => {
      if (mapping.aside?.includes(name)) return []
      const differs = difference(expected, worked[name])
      return differs === null ? [] : [`${name}: ${differs}`]
    })
    return { id, basis, status: wrong.length === 0 ? 'passed' : 'failed', detail: wrong.join('; ') }
  }
  return { id, basis, status: 'failed', detail: refusal }
}

function namesOf({ inputs, expected }: PublishedCase): string {
  return `${[...inputs.keys()].join(', ')} → ${[...expected.keys()].join(', ')}`
}

/** How many names a mapping knows that the case does not use; null where the case has one that the mapping does not know. */
function spareNames(mapping: CaseMapping, { inputs, expected }: PublishedCase): number | null {
  const knownInputs = 'work' in mapping ? mapping.inputs : Object.keys(mapping.inputs)
  const knownOutputs = [
    ...('work' in mapping ? mapping.expected : Object.keys(mapping.expected)),
    ...(mapping.aside ?? []),
  ]
  if ([...inputs.keys()].some((name) => !knownInputs.includes(name))) return null
  if ([...expected.keys()].some((name) => !knownOutputs.includes(name))) return null
  return knownInputs.length - inputs.size + (knownOutputs.length - expected.size)
}

/** By expected name; a text says why nothing came out. */
function outcomesOf(
  mapping: CaseMapping,
  published: PublishedCase,
  calculators: readonly Calculator[],
): Readonly<Record<string, Outcome>> | string {
  if ('work' in mapping) {
    try {
      return mapping.work(published.inputs, published.expected, published.title)
    } catch (error) {
      return error instanceof Error ? error.message : String(error)
    }
  }
  const calculator = calculators.find(({ name }) => name === mapping.calculator)
  if (!calculator) return `there is no calculator ${mapping.calculator}`
  const rounds = roundsOf(mapping, published, calculator)
  if (typeof rounds === 'string') return rounds
  const calculations = rounds.texts.map((texts) => calculator.run(texts))
  const refused = calculations.find((each) => !each.ok)
  if (refused && !refused.ok) return `${refused.problem.message} ${refused.problem.advice}`
  return Object.fromEntries(
    Object.keys(mapping.expected).map((name) => {
      const wanted = published.expected.get(name)?.value
      // A pair that does not belong to the values of a list, one each, holds for all of them.
      if (rounds.isList && Array.isArray(wanted) && wanted.length !== calculations.length && calculations[0])
        return [name, outcomeOf(mapping, name, wanted, calculations[0])]
      const outcomes = calculations.map((each, index) => {
        const item = rounds.isList && Array.isArray(wanted) ? wanted[index] : wanted
        return outcomeOf(mapping, name, item, each)
      })
      return [name, rounds.isList ? outcomes : (outcomes[0] ?? null)]
    }),
  )
}

interface Rounds {
  readonly texts: readonly ReadonlyMap<string, string>[]
  /** Whether a list was worked out value by value. */
  readonly isList: boolean
}

function roundsOf(mapping: CalculatorMapping, published: PublishedCase, calculator: Calculator): Rounds | string {
  const lists = new Map<string, readonly string[]>()
  let length: number | null = null
  for (const [name, given] of published.inputs) {
    const inputName = mapping.inputs[name] ?? name
    const input = calculator.inputs.find((each) => each.name === inputName)
    if (!input) return `${calculator.name} has no input ${inputName}`
    const items = (Array.isArray(given.value) ? given.value : [given.value]).map((item) =>
      textOf(item, given, input.kind, mapping),
    )
    const unknown = items.find((item) => item === null)
    if (unknown !== undefined) return `${name} has an unknown unit, ${given.unit}`
    const texts = items.filter((item) => item !== null)
    if (input.list) lists.set(inputName, [texts.join('; ')])
    else {
      lists.set(inputName, texts)
      if (Array.isArray(given.value)) length = Math.max(length ?? 0, texts.length)
    }
  }
  for (const [inputName, text] of Object.entries(mapping.fixed ?? {})) lists.set(inputName, [text])
  const texts = Array.from(
    { length: length ?? 1 },
    (_, index) => new Map([...lists].map(([name, items]) => [name, items[items.length === 1 ? 0 : index] ?? ''])),
  )
  return { texts, isList: length !== null }
}

/** One value as it would be typed; null where its unit is not known. */
function textOf(item: unknown, { unit }: CaseValue, kind: string, { words }: CalculatorMapping): string | null {
  const written = String(item)
  if (kind === 'word') return words?.[written] ?? written
  if (kind === 'size' || kind === 'text') return written
  const symbol = symbolOf(unit ?? '', kind)
  if (symbol === null) return null
  return symbol === '' ? written : `${written} ${symbol}`
}

function outcomeOf(mapping: CalculatorMapping, name: string, wanted: unknown, calculation: Calculation): Outcome {
  const to = mapping.expected[name]
  if (to === undefined || !calculation.ok) return null
  const [single, pair] = typeof to === 'string' ? [to, null] : to
  if (pair && Array.isArray(wanted)) return pair.map((each) => resultOf(each, calculation, mapping))
  return resultOf(single, calculation, mapping)
}

function resultOf(name: string, calculation: Calculation & { ok: true }, { words }: CalculatorMapping): Outcome {
  const result = calculation.results.find((each) => each.name === name)
  if (!result) return null
  if (result.worked === null)
    return Object.entries(words ?? {}).find(([, ours]) => ours === result.value)?.[0] ?? result.value
  return { exact: fromExactText(result.worked) ?? zero, unit: result.unit }
}
