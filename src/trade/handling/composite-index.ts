import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, one, subtract, zero } from '../../quantities/rational.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { frequencyMultiplier, type WorkDuration } from './frequency.ts'
import { liftingIndex } from './recommended-weight.ts'

/** One kind of lift of a job: its weight, its limit without FM (same unit), its pace in lifts a minute. */
export interface LiftingTask {
  readonly name: string
  readonly load: Rational
  readonly frequencyIndependentLimit: Rational
  readonly rate: Rational
  /** Hands below 30 in (75 cm). */
  readonly low: boolean
}

export interface CompositeIndex {
  readonly index: Rational
  /** Hardest lift first: the order in which paces were added. */
  readonly order: readonly string[]
}

/**
 * Composite lifting index of a job of several kinds of lift.
 *
 *     CLI = STLI1 + Σ FILIi (1/FM(F1 + … + Fi) - 1/FM(F1 + … + Fi-1)),   tasks in falling order of STLI = FILI/FM(F)
 *
 * Source: Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021, section 3.3 (multi-task), from memory.
 * Exact; refused where the paces together leave no multiplier above 0.
 */
export function compositeIndex(tasks: readonly LiftingTask[], duration: WorkDuration): Answer<CompositeIndex> {
  if (tasks.length === 0) return refuse('tasks', 'No lift is given.', 'Type at least one lift.')
  const rated: { readonly task: LiftingTask; readonly independent: Rational; readonly alone: Rational }[] = []
  for (const task of tasks) {
    const independent = liftingIndex(task.load, task.frequencyIndependentLimit)
    if (!independent.ok) return independent
    const paced = frequencyMultiplier(task.rate, duration, task.low)
    if (!paced.ok) return paced
    if (compare(paced.value, zero) === 0) return tooFast(task.name)
    rated.push({ task, independent: independent.value, alone: divide(independent.value, paced.value) })
  }
  rated.sort((a, b) => compare(b.alone, a.alone))
  let index = zero
  let pace = zero
  for (const { task, independent, alone } of rated) {
    const slower = pace
    pace = add(pace, task.rate)
    if (index.numerator === 0n) {
      index = alone
      continue
    }
    const before = frequencyMultiplier(slower, duration, task.low)
    const after = frequencyMultiplier(pace, duration, task.low)
    if (!before.ok) return before
    if (!after.ok) return after
    if (before.value.numerator === 0n || after.value.numerator === 0n) return tooFast(task.name)
    const more = subtract(divide(one, after.value), divide(one, before.value))
    index = add(index, multiply(more, independent))
  }
  return answer({ index, order: rated.map(({ task }) => task.name) })
}

function tooFast(name: string): Answer<CompositeIndex> {
  return refuse(
    'rate',
    `With "${name}" the pace is faster than the equation allows.`,
    'Lift less often, or share the work.',
  )
}
