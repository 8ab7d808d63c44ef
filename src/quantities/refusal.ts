import type { QuantityProblem } from './quantity-types.ts'

/** Letters `from` up to `to` of a text. */
export interface Stretch {
  readonly from: number
  readonly to: number
}

/** The half of `Parsed` that says why not. */
export interface Refusal {
  readonly ok: false
  readonly problem: QuantityProblem
}

export function refused(message: string, advice: string, from: number, to: number): Refusal {
  return { ok: false, problem: { message, advice, from, to: Math.max(from, to) } }
}

export function refusedAt(message: string, advice: string, at: Stretch): Refusal {
  return refused(message, advice, at.from, at.to)
}
