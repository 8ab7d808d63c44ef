import type { Phase, Step } from '../procedure.ts'
import type { Variant } from '../variants.ts'

/** What the schedule rests on, and nothing else. */
export interface TimedPhase extends Pick<Phase, 'id' | 'under' | 'by' | 'only' | 'together' | 'entries'> {
  readonly steps: readonly TimedStep[]
}

export interface TimedStep extends Pick<Step, 'id' | 'baseId' | 'by' | 'only' | 'waiting' | 'entries'> {
  readonly acts: readonly Pick<Step['acts'][number], 'by'>[]
  readonly steps: readonly TimedStep[]
}

/** Two jobs of the same key have the same schedule. */
export function scheduleKey(phases: readonly TimedPhase[], variants: readonly Variant[]): string {
  return JSON.stringify([variants, phases.map(keyOfPhase)])
}

function keyOfPhase({ id, under, by, only, together, entries, steps }: TimedPhase): unknown {
  return [id, under, by, only, together, takes(entries), steps.map(keyOfStep)]
}

function keyOfStep({ id, baseId, by, only, waiting, entries, acts, steps }: TimedStep): unknown {
  return [id, baseId, by, only, waiting, takes(entries), acts.map((act) => act.by), steps.map(keyOfStep)]
}

/** Of the entries only this one is asked for. */
function takes(entries: Phase['entries']): unknown {
  return entries.find(({ key }) => key === 'takes')?.data ?? null
}
