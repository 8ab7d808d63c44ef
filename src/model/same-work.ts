import { isEqual } from '../text/is-equal.ts'
import { oncePer } from '../text/once-per.ts'
import type { Hold, Phase, Step } from './procedure.ts'
import type { Reading, Torque } from './readings.ts'

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

  function hasSameFields(one: Step | Phase, other: Step | Phase, alsoShown: boolean): boolean {
    const keys = Object.keys(one)
    const isLeftOut = (key: string): boolean => key === 'steps' || BESIDE.has(key) || (!alsoShown && SHOWN.has(key))
    const isPlace = (key: string): boolean => !alsoShown && key === 'at'
    // Whoever leads to a step by its id has changed as well then, and is no longer the same.
    const isRenamed = !alsoShown && isNamedByWords(one) && isNamedByWords(other) && suffixOf(one) === suffixOf(other)
    return (
      keys.length === Object.keys(other).length &&
      keys.every((key) => {
        const [own, others] = [fieldOf(one, key), fieldOf(other, key)]
        if (isLeftOut(key) || own === others) return true
        if (isRenamed && (key === 'id' || key === 'baseId')) return true
        if (isRenamed && key === 'holds')
          return isEqual((own as Holds).map(signedPart), (others as Holds).map(signedPart), isPlace)
        if (key === 'readings')
          return isEqual((own as Reads).map(judgedPart), (others as Reads).map(judgedPart), isPlace)
        if (key === 'torques')
          return isEqual((own as Torques).map(tightenedPart), (others as Torques).map(tightenedPart), isPlace)
        return isEqual(own, others, isPlace)
      })
    )
  }

  /** A figure that no condition and no formula asks for is only ever in its limit or out of it. */
  function judgedPart(reading: Reading): unknown {
    if (reading.workedLimit !== undefined || namesAskedFor(before).has(reading.name)) return reading
    const { limit, facts, asks, unit, instrument, given, uncertainty, ...rest } = reading
    return { ...rest, lower: limit?.lower != null, upper: limit?.upper != null }
  }
}

type Reads = readonly Reading[]
type Torques = readonly Torque[]

type Holds = readonly Hold[]

/** Without the id, which is made of the step's. */
function signedPart({ id: _, ...rest }: Hold): unknown {
  return rest
}

/** Its id is made of its words, `wheel-off/chalk-the-side`, and changes with them. */
const isNamedByWords = ({ baseId }: Step | Phase): boolean => baseId.includes('/')

const suffixOf = ({ id, baseId }: Step | Phase): string => id.slice(baseId.length)

/** With what force is no matter of the way. */
function tightenedPart({ id, name, only, at }: Torque): unknown {
  return { id, name, only, at }
}

/** Every word of every condition and formula. */
const namesAskedFor = oncePer((phases: readonly Phase[]): ReadonlySet<string> => {
  const typed = phases.flatMap((phase) => [phase.when, phase.until?.condition, ...phase.steps.flatMap(askedIn)])
  return new Set(typed.flatMap((text) => text?.match(/[\p{L}\p{N}_-]+/gu) ?? []))
})

function askedIn({ when, decide, readings, steps }: Step): readonly (string | null)[] {
  return [
    when,
    ...(decide?.branches.map((branch) => branch.when) ?? []),
    ...readings.flatMap(({ expression, workedLimit }) => [
      expression,
      workedLimit ? JSON.stringify(workedLimit) : null,
    ]),
    ...steps.flatMap(askedIn),
  ]
}

const fieldOf = (thing: object, key: string): unknown => (thing as Readonly<Record<string, unknown>>)[key]
