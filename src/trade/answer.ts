import type { CalculatorProblem } from './calculator.ts'

export interface Refused {
  readonly ok: false
  readonly problem: CalculatorProblem
}

/** What a calculation gives: its value, or why not. Nothing in this folder throws for what people type. */
export type Answer<T> = { readonly ok: true; readonly value: T } | Refused

export function answer<T>(value: T): { readonly ok: true; readonly value: T } {
  return { ok: true, value }
}

export function refuse(input: string | null, message: string, advice: string): Refused {
  return { ok: false, problem: { input, message, advice } }
}

/** The first refusal among conditions that must all hold, or null. */
export function firstRefused(...conditions: readonly (Refused | null)[]): Refused | null {
  return conditions.find((condition) => condition !== null) ?? null
}
