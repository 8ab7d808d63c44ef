import type { Job, StepItem } from './job.ts'
import { type ItemContents, readingKey } from './job-state.ts'

/** What each item of the job holds, by its id. */
export function itemContents(job: Job): ReadonlyMap<string, ItemContents> {
  const nothing = {
    ticks: [],
    readings: [],
    hold: null,
    decision: null,
    phase: null,
    tried: null,
    spoils: [],
    waits: [],
  }
  return new Map(
    job.items.map((item): [string, ItemContents] => {
      switch (item.kind) {
        case 'step':
          return [
            item.id,
            {
              ...nothing,
              ticks: item.ticks.map(({ id }) => id),
              readings: item.readings.flatMap(({ id, positions }) => positions.map((at) => readingKey(id, at))),
              tried: item.step,
              spoils: spoiledBy(job, item),
              waits: item.waits.map(({ id }) => id),
            },
          ]
        case 'sign':
          return [item.id, { ...nothing, hold: item.hold }]
        case 'decide':
          return [item.id, { ...nothing, decision: item.step }]
        case 'until':
          return [item.id, { ...nothing, phase: item.phase, tried: item.phase }]
      }
    }),
  )
}

/** The readings that a step makes worthless, by key: of its position and of those outside every repeat; never its own. */
function spoiledBy(job: Job, spoiler: StepItem): readonly string[] {
  if (spoiler.spoils.length === 0) return []
  const here = job.phases.find(({ id }) => id === spoiler.phase)?.position ?? null
  return job.items.flatMap((item) => {
    if (item.kind !== 'step' || item.id === spoiler.id) return []
    const there = job.phases.find(({ id }) => id === item.phase)?.position ?? null
    const isNear = here === null || there === null || here === there
    return item.readings.flatMap(({ id, name, positions }) => {
      const named = (suffix: string) => spoiler.spoils.includes(`${name}${suffix}`)
      const isWhole = (isNear && named('')) || (there !== null && named(`.${there}`))
      return positions
        .filter((at) => isWhole || (isNear && at !== null && named(`.${at}`)))
        .map((at) => readingKey(id, at))
    })
  })
}
