import type { Job, JobConsequence, JobItem, JobReading, JobTick, JobWait } from './job.ts'

/** A job as it stands in a page: what is as it mostly is, is left out. Sixty steps weigh a tenth less. */
export type PackedJob = Omit<Job, 'items'> & { readonly items: readonly PackedItem[] }

type PackedItem = Partial<JobItem>

const usual = {
  item: { only: [], conditions: [] },
  step: { ticks: [], readings: [], consequences: [], spoils: [], sets: [], proves: [], waits: [] },
  tick: { only: null, thing: null },
  thing: { isLock: false, count: null },
  wait: { latest: null, after: [] },
  reading: {
    positions: [null],
    limit: null,
    workedLimit: null,
    uncertainty: null,
    unit: null,
    passes: [],
    fails: [],
    expression: null,
    only: null,
  },
  consequence: { on: 'out', reading: null, targets: [], atMost: null, then: null },
} as const

export function packJob(job: Job): PackedJob {
  return { ...job, items: job.items.map(packItem) }
}

export function unpackJob(packed: PackedJob): Job {
  return { ...packed, items: packed.items.map(unpackItem) }
}

function packItem(item: JobItem): PackedItem {
  if (item.kind !== 'step') return without(item, usual.item)
  return without(
    {
      ...item,
      ticks: item.ticks.map((tick) =>
        without({ ...tick, thing: tick.thing && without(tick.thing, { ...usual.thing, says: tick.says }) }, usual.tick),
      ),
      waits: item.waits.map((wait) => without(wait, usual.wait)),
      readings: item.readings.map((reading) => without(reading, usual.reading)),
      consequences: item.consequences.map((consequence) => without(consequence, usual.consequence)),
    },
    { ...usual.item, ...usual.step, ...namesOf(item.step) },
  )
}

/** What a step is called where it stands in no other. */
function namesOf(step: string): { readonly id: string; readonly within: readonly string[] } {
  return { id: `step:${step}`, within: [step] }
}

function unpackItem(packed: PackedItem): JobItem {
  const item = { ...usual.item, ...packed } as JobItem
  if (item.kind !== 'step') return item
  const step = { ...usual.step, ...namesOf(item.step), ...item }
  return {
    ...step,
    ticks: step.ticks.map((packed): JobTick => {
      const tick = { ...usual.tick, ...packed }
      return { ...tick, thing: tick.thing && Object.assign({ ...usual.thing, says: tick.says }, tick.thing) }
    }),
    waits: step.waits.map((wait): JobWait => ({ ...usual.wait, ...wait })),
    readings: step.readings.map((reading): JobReading => ({ ...usual.reading, ...reading })),
    consequences: step.consequences.map((consequence): JobConsequence => ({ ...usual.consequence, ...consequence })),
  }
}

function without(value: object, defaults: Readonly<Record<string, unknown>>): object {
  return Object.fromEntries(
    Object.entries(value).filter(
      ([name, inner]) => !Object.hasOwn(defaults, name) || JSON.stringify(inner) !== JSON.stringify(defaults[name]),
    ),
  )
}
