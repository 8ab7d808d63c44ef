import type { Rational } from '../../quantities/quantity-types.ts'
import { isZero, zero } from '../../quantities/rational.ts'
import type { ThreePoints } from '../../trade/schedule/estimates.ts'
import type { TimedPhase, TimedStep } from './timed-work.ts'
import { ownWaitOf, takesOf, waitsSince } from './times.ts'

/** A piece of the job that takes time, with what must be over before it. */
export interface JobActivity {
  /** Id of the step, or of the phase that says how long all of it takes. */
  readonly name: string
  readonly hands: ThreePoints
  /** Waited after the work itself, with nobody's hands. */
  readonly wait: Rational
  readonly people: readonly string[]
  readonly after: readonly { readonly name: string; readonly wait?: Rational }[]
}

export interface JobNetwork {
  readonly activities: readonly JobActivity[]
  /** For each phase: what is over before it begins, and what of it is over last. Empty before the first time that is told. */
  readonly phases: ReadonlyMap<string, { readonly entry: readonly string[]; readonly ends: readonly string[] }>
}

const noTime: ThreePoints = { shortest: zero, likeliest: zero, longest: zero }

/**
 * The job as a network. Steps follow one another; those of a phase worked `together` begin side by side, but nobody does two at once;
 * branches begin where their phase ends, and the next phase waits for the longest of them. Steps without a time are passed through.
 */
export function networkOf(phases: readonly TimedPhase[]): JobNetwork {
  const activities: JobActivity[] = []
  const spans = new Map<string, { entry: readonly string[]; ends: readonly string[] }>()
  const waitedFor = targetsOfWaits(phases)
  const lay = (phase: TimedPhase, entry: readonly string[]): readonly string[] => {
    const own = activitiesOf(phase, entry, waitedFor)
    activities.push(...own.activities)
    spans.set(phase.id, { entry, ends: own.ends })
    const branches = phases.filter((branch) => branch.under === phase.id)
    return [...new Set([...own.ends, ...branches.flatMap((branch) => lay(branch, own.ends))])]
  }
  phases.filter((phase) => phase.under === null).reduce<readonly string[]>((before, phase) => lay(phase, before), [])
  return { activities, phases: spans }
}

interface Laid {
  readonly activities: readonly JobActivity[]
  readonly ends: readonly string[]
}

function activitiesOf(phase: TimedPhase, entry: readonly string[], waitedFor: ReadonlyMap<string, string>): Laid {
  const takes = takesOf(phase)
  const whole: readonly JobActivity[] =
    takes === null
      ? []
      : [
          {
            name: phase.id,
            hands: takes,
            wait: zero,
            people: hasOwnTimes(phase) ? [] : peopleOf(phase),
            after: named(entry),
          },
        ]
  const steps: JobActivity[] = []
  let before = entry
  for (const step of phase.steps.flatMap(timedParts)) {
    const since = waitsSince(step).flatMap(({ after, minutes }) => {
      const target = nameMeant(after, step, waitedFor)
      return target !== null && target !== step.id && waitedFor.has(target) ? [{ name: target, wait: minutes }] : []
    })
    const hands = takesOf(step) ?? noTime
    const wait = ownWaitOf(step)
    const isTimed = takesOf(step) !== null || !isZero(wait) || since.length > 0 || waitedFor.has(step.id)
    if (!isTimed) continue
    const people = doersOf(step)
    const earlier = phase.together
      ? [
          ...entry,
          ...steps.filter((other) => other.people.some((role) => people.includes(role))).map(({ name }) => name),
        ]
      : before
    const after = [...named(earlier).filter(({ name }) => !since.some((other) => other.name === name)), ...since]
    steps.push({ name: step.id, hands, wait, people, after })
    if (!phase.together) before = [step.id]
  }
  const ends = phase.together && steps.length > 0 ? steps.map(({ name }) => name) : before
  const all = [...whole.map(({ name }) => name), ...(steps.length > 0 || whole.length === 0 ? ends : [])]
  return { activities: [...whole, ...steps], ends: all }
}

/** A step with sub-steps counts as a whole where it says its time, else by its sub-steps. */
function timedParts(step: TimedStep): readonly TimedStep[] {
  if (step.steps.length === 0 || takesOf(step) !== null) return [step]
  return [step, ...step.steps.flatMap(timedParts)]
}

function hasOwnTimes(phase: TimedPhase): boolean {
  return phase.steps.flatMap(timedParts).some((step) => takesOf(step) !== null)
}

function peopleOf(phase: TimedPhase): readonly string[] {
  return [...new Set([...phase.by, ...phase.steps.flatMap(doersOf)])]
}

function doersOf(step: TimedStep): readonly string[] {
  return [...new Set([...step.by, ...step.acts.flatMap((act) => act.by)])]
}

function named(names: readonly string[]) {
  return names.map((name) => ({ name }))
}

/** Steps that a later one counts its wait from: by id, those that come before it. */
function targetsOfWaits(phases: readonly TimedPhase[]): ReadonlyMap<string, string> {
  const steps = phases.flatMap((phase) => phase.steps.flatMap(timedParts))
  const earlier = new Map<string, string>()
  const wanted = new Map<string, string>()
  for (const step of steps) {
    for (const { after } of waitsSince(step)) {
      const id = nameMeant(after, step, earlier)
      if (id !== null && earlier.has(id)) wanted.set(id, earlier.get(id) ?? id)
    }
    earlier.set(step.id, step.baseId)
  }
  return wanted
}

/** The step that a wait means: the one of the same position, else the last one of that name. */
function nameMeant(typed: string, { id }: TimedStep, known: ReadonlyMap<string, string>): string | null {
  const suffix = id.includes('@') ? id.slice(id.indexOf('@')) : ''
  if (known.has(`${typed}${suffix}`)) return `${typed}${suffix}`
  return [...known].findLast(([each, base]) => base === typed || each === typed)?.[0] ?? null
}
