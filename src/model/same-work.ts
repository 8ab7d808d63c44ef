import { isEqual } from '../text/is-equal.ts'
import type { Phase, Step } from './procedure.ts'

/** What stands beside the work itself: words to read, what they come from, what was worked out of them. */
const BESIDE: ReadonlySet<string> = new Set<keyof Step | keyof Phase>([
  'details',
  'entries',
  'hazards',
  'ppe',
  'prose',
  'reverseOf',
  'statesAfter',
  'statesBefore',
  'tries',
  'undoes',
  'uses',
  'workings',
])

/** The instruction as read, and where everything stands. */
const SHOWN: ReadonlySet<string> = new Set<keyof Step | keyof Phase>(['at', 'text'])

/**
 * Whether the work is the same as before: phases, steps, and all that they ask for. What merely stands beside that may differ.
 *
 * @param mayBeShownAnew whether the instruction of a part, and the places in it, may differ
 */
export function isSameWork(
  before: readonly Phase[],
  now: readonly Phase[],
  mayBeShownAnew: (part: Phase | Step) => boolean,
): boolean {
  const isSamePart = (one: Step | Phase, other: Step | Phase): boolean =>
    one === other ||
    ((hasSameFields(one, other, true) || (hasSameFields(one, other, false) && mayBeShownAnew(one))) &&
      areSame(one.steps, other.steps))
  const areSame = (some: readonly (Step | Phase)[], others: readonly (Step | Phase)[]): boolean =>
    some.length === others.length &&
    some.every((one, index) => {
      const other = others[index]
      return other !== undefined && isSamePart(one, other)
    })
  return areSame(before, now)
}

function hasSameFields(one: object, other: object, alsoShown: boolean): boolean {
  const keys = Object.keys(one)
  const isLeftOut = (key: string): boolean => key === 'steps' || BESIDE.has(key) || (!alsoShown && SHOWN.has(key))
  const isPlace = (key: string): boolean => !alsoShown && key === 'at'
  return (
    keys.length === Object.keys(other).length &&
    keys.every((key) => isLeftOut(key) || isEqual(fieldOf(one, key), fieldOf(other, key), isPlace))
  )
}

const fieldOf = (thing: object, key: string): unknown => (thing as Readonly<Record<string, unknown>>)[key]
