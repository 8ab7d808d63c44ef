import { applies } from './applies.ts'
import type { Job, JobItem, JobReading, StepItem } from './job.ts'
import type { JobState } from './job-state.ts'

/** A reading that a name stands for, and at which of its places. */
export interface MeantReading {
  readonly item: StepItem
  readonly reading: JobReading
  readonly positions: JobReading['positions']
}

/** The position of the repeat that an item stands in, or null. */
export function positionOf(job: Job, item: JobItem): string | null {
  return job.phases.find(({ id }) => id === item.phase)?.position ?? null
}

/** Every reading of this job: those for other variants are none. */
export function everyReading(
  job: Job,
  state: JobState,
): readonly { readonly item: StepItem; readonly reading: JobReading }[] {
  return job.items.flatMap((item) =>
    item.kind === 'step'
      ? item.readings.filter(({ only }) => applies(only, state)).map((reading) => ({ item, reading }))
      : [],
  )
}

/** The reading of a step by its id. Limits by variant share one id: the one for the equipment chosen is meant. */
export function readingOf(item: JobItem | null, id: string | undefined, state: JobState): JobReading | undefined {
  if (item?.kind !== 'step') return undefined
  return item.readings.find((reading) => reading.id === id && applies(reading.only, state))
}

/** What a name means at an item: bare within the same position of a repeat, with the position behind it elsewhere. */
export function readingsMeant(job: Job, state: JobState, at: JobItem, name: string): readonly MeantReading[] {
  const here = positionOf(job, at)
  return everyReading(job, state).flatMap(({ item, reading }) => {
    const there = positionOf(job, item)
    const prefixes = there === null ? [''] : there === here ? ['', `.${there}`] : [`.${there}`]
    const isAll = name === reading.name && there !== null && here === null
    if (isAll || prefixes.some((prefix) => name === reading.name + prefix))
      return [{ item, reading, positions: reading.positions }]
    const field = reading.positions.find(
      (position) => position !== null && prefixes.some((prefix) => name === `${reading.name}${prefix}.${position}`),
    )
    return field === undefined ? [] : [{ item, reading, positions: [field] }]
  })
}
