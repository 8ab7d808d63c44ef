import type { HazardSheet } from './step-file-parts.ts'

const order: readonly HazardSheet['signalWord'][] = ['danger', 'warning', 'caution', 'notice']

/** Messages that stand above one another, the worst on top; of the same word in the order written. */
export function worstFirst(hazards: readonly HazardSheet[]): readonly HazardSheet[] {
  return hazards.toSorted((a, b) => order.indexOf(a.signalWord) - order.indexOf(b.signalWord))
}
