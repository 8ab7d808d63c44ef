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

/**
 * Two jobs of the same key have the same schedule, but for the ids of their steps: an id that is made of the words of a step changes
 * with them, and nothing waits for it.
 */
export function scheduleKey(phases: readonly TimedPhase[], variants: readonly Variant[]): string {
  return JSON.stringify([variants, phases.map(keyOfPhase)])
}

/** The ids of all steps, in the order of the key. */
export function idsOfSteps({ steps }: { readonly steps: readonly TimedStep[] }): readonly string[] {
  return steps.flatMap((step) => [step.id, ...idsOfSteps(step)])
}

function keyOfPhase({ id, under, by, only, together, entries, steps }: TimedPhase): unknown {
  return [id, under, by, only, together, takes(entries), steps.map(keyOfStep)]
}

function keyOfStep({ id, baseId, by, only, waiting, entries, acts, steps }: TimedStep): unknown {
  const named = baseId.includes('/') ? id.slice(baseId.length) : id
  return [named, by, only, waiting, takes(entries), acts.map((act) => act.by), steps.map(keyOfStep)]
}

/** Whether some wait is counted from a step by an id that is made of words. */
export function waitsForWords({ steps }: { readonly steps: readonly TimedStep[] }): boolean {
  return steps.some((step) => step.waiting.some(({ after }) => after?.includes('/')) || waitsForWords(step))
}

/** Of the entries only this one is asked for. */
function takes(entries: Phase['entries']): unknown {
  return entries.find(({ key }) => key === 'takes')?.data ?? null
}
