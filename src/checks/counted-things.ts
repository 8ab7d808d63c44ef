import type { CountedThing, Procedure } from '../model/procedure.ts'
import type { Place } from '../text/place.ts'
import { everyStep } from './every-step.ts'

type PairedKey = 'removes' | 'refits' | 'locks' | 'unlocks' | 'putsOn' | 'takesOff'

/** Something done whose undoing is missing, or does not cover all of it. */
export interface LeftOpen {
  readonly id: string
  readonly at: Place
  /** How many remain, where both sides were counted; null where nothing was undone at all, or "all" were done. */
  readonly remaining: number | null
}

/**
 * Things that one key does and no step of the other key undoes, on any way through the job. Names in a repeat are
 * taken by position: what is removed left and right has to go back left and right.
 */
export function leftOpen(procedure: Procedure, does: PairedKey, undoes: PairedKey): readonly LeftOpen[] {
  const done = tallies(procedure, does)
  const undone = tallies(procedure, undoes)
  return [...done].flatMap(([key, { id, at, count }]): readonly LeftOpen[] => {
    const back = undone.get(key)
    if (back === undefined) return [{ id, at, remaining: null }]
    if (count === null || back.count === null || back.count >= count) return []
    return [{ id, at, remaining: count - back.count }]
  })
}

interface Tally {
  readonly id: string
  readonly at: Place
  /** The sum of the counts; null as soon as one stands for "all of them". */
  readonly count: number | null
}

function tallies(procedure: Procedure, key: PairedKey): ReadonlyMap<string, Tally> {
  const sums = new Map<string, Tally>()
  for (const { step, phase } of everyStep(procedure)) {
    for (const thing of step[key]) {
      const name = isPositioned(procedure, thing) ? `${thing.id}@${phase.position?.label ?? ''}` : thing.id
      const before = sums.get(name)
      sums.set(name, { id: thing.id, at: before?.at ?? thing.at, count: plus(before, thing) })
    }
  }
  return sums
}

/** A thing that is one a position: only then does each position have to balance for itself. */
function isPositioned({ states }: Procedure, thing: CountedThing): boolean {
  return states.some((state) => state.name === thing.id && state.position !== null)
}

function plus(before: Tally | undefined, thing: CountedThing): number | null {
  if (before?.count === null || thing.count === null) return null
  return (before?.count ?? 0) + Number(thing.count)
}
