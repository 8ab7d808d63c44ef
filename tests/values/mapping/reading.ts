import type { Rational } from '../../../src/quantities/quantity-types.ts'
import type { Answer } from '../../../src/trade/answer.ts'
import type { CaseValue } from '../case-file.ts'
import { symbolOf } from '../case-units.ts'
import { exactOf } from '../compare.ts'
import type { Outcome } from '../mapping.ts'

/** Reading the inputs of a case for functions: numbers exactly, lists value by value. */

export type Inputs = ReadonlyMap<string, CaseValue>

/** One value of each input. */
export interface Item {
  readonly number: (name: string) => Rational
  readonly count: (name: string) => number
  readonly word: (name: string) => string
  readonly isTrue: (name: string) => boolean
  readonly has: (name: string) => boolean
}

/** Value of an answer; a refusal becomes an error, which refuses the case. */
export function solved<T>(answer: Answer<T>): T {
  if (!answer.ok) throw new Error(`${answer.problem.message} ${answer.problem.advice}`)
  return answer.value
}

export function figure(exact: Rational, unit: string): Outcome {
  return { exact, unit: symbolOf(unit) ?? unit }
}

/** A figure in the unit of an input. */
export function figureAs(inputs: Inputs, name: string, exact: Rational): Outcome {
  return figure(exact, unitOf(inputs, name))
}

/** Our symbol of the unit of an input. */
export function unitOf(inputs: Inputs, name: string): string {
  const written = inputs.get(name)?.unit ?? ''
  return symbolOf(written) ?? written
}

export function numbersOf(inputs: Inputs, name: string): readonly Rational[] {
  const value = inputs.get(name)?.value
  return (Array.isArray(value) ? value : [value]).map(exactOf)
}

export function wordsOf(inputs: Inputs, name: string): readonly string[] {
  const value = inputs.get(name)?.value
  return (Array.isArray(value) ? value : [value]).map(String)
}

export function itemOf(inputs: Inputs, index: number | null = null): Item {
  const at = (name: string): unknown => {
    const value = inputs.get(name)?.value
    return index !== null && Array.isArray(value) ? value[index] : value
  }
  return {
    number: (name) => exactOf(at(name)),
    count: (name) => Number(at(name)),
    word: (name) => String(at(name)),
    isTrue: (name) => at(name) === true || at(name) === 'true' || at(name) === 'yes',
    has: (name) => inputs.has(name),
  }
}

/** Worked out once, or value by value where inputs are lists; those lists must be of one length. */
export function perItem(inputs: Inputs, work: (item: Item) => Outcome): Outcome {
  const lengths = [...inputs.values()].flatMap(({ value }) => (Array.isArray(value) ? [value.length] : []))
  const [length] = lengths
  if (length === undefined) return work(itemOf(inputs))
  if (lengths.some((each) => each !== length)) throw new Error('lists of different length')
  return Array.from({ length }, (_, index) => work(itemOf(inputs, index)))
}
