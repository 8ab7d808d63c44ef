import { applies } from './applies.ts'
import { itemContents } from './item-contents.ts'
import type { Job, JobItem, StepItem } from './job.ts'
import { type JobState, type Reading, readingKey } from './job-state.ts'
import { misjudged } from './misjudged.ts'
import { peopleOf } from './people.ts'
import { jobState } from './reckon.ts'
import type { Remark } from './remark.ts'
import type { RunRecord } from './run-record.ts'
import { openThings } from './standing.ts'
import { type Lack, lacksOf, survey } from './survey.ts'

const outOfLimit = new Set(['low', 'high', 'out', 'in-doubt'])

/** What is missing, unsigned, out of limit or otherwise to be looked at in a record; in the order of the work. */
export function tellRecord(job: Job, { entries, saved }: Pick<RunRecord, 'entries' | 'saved'>): readonly Remark[] {
  const state = jobState(entries, itemContents(job))
  const instant = Date.parse(saved)
  const now = survey(job, state, instant)
  const ofItems = now.inOrder.flatMap(({ item, status }): readonly Remark[] =>
    status === 'off' ? [] : ofItem(item, state, instant),
  )
  const open = openThings(job, state).map(
    ({ says, item, by }): Remark => ({
      what: 'open',
      number: item.number,
      says: `${says}${by === '' ? '' : `, by ${by}`}`,
    }),
  )
  const missing = now.missingAtStart.map(
    ({ field, name }): Remark => ({
      what: 'missing',
      number: '',
      says: field === 'person' ? `Nobody signed in as ${name}.` : `Nobody wrote which ${name} this run is for.`,
    }),
  )
  const equipment: readonly Remark[] =
    state.equipment === '' ? [{ what: 'missing', number: '', says: 'Nobody wrote which equipment this was.' }] : []
  return [...equipment, ...missing, ...ofItems, ...misjudged(job, entries), ...open]
}

function ofItem(item: JobItem, state: JobState, instant: number): readonly Remark[] {
  const { number } = item
  switch (item.kind) {
    case 'step': {
      const tick = state.ticks.get(item.id)
      // What was never ticked lacks everything; that is one remark and not ten.
      const lacks = tick === undefined ? [] : lacksOf(item, state, instant).flatMap((lack) => lackInWords(item, lack))
      const isOpen: readonly Remark[] = tick === undefined ? [{ what: 'missing', number, says: 'Not ticked.' }] : []
      const wanted = peopleOf(item.by, state).length > 0 || item.by.length > 0
      const nobody: readonly Remark[] =
        tick !== undefined && wanted && tick.by.every(({ name }) => name === '')
          ? [{ what: 'nobody', number, says: 'Ticked, and nobody is named.' }]
          : []
      return [...isOpen, ...nobody, ...lacks, ...readingRemarks(item, state)]
    }
    case 'sign': {
      const signature = state.signatures.get(item.hold)
      const before = state.withdrawn.filter(({ hold }) => hold === item.hold)
      return [
        ...before.map(
          ({ name }): Remark => ({ what: 'withdrawn', number, says: `Signed by ${name}, and taken again later.` }),
        ),
        ...(signature === undefined ? [{ what: 'unsigned', number, says: `Not signed: ${item.text}` } as const] : []),
        ...(signature?.waived
          ? [{ what: 'unsigned', number, says: `Waived by ${signature.name}: it proves nothing.` } as const]
          : []),
        ...(signature !== undefined && signature.name === ''
          ? [{ what: 'nobody', number, says: 'Signed, and nobody is named.' } as const]
          : []),
      ]
    }
    case 'decide':
      return state.decisions.has(item.step) ? [] : [{ what: 'missing', number, says: `Not decided: ${item.text}` }]
    case 'until':
      return state.ended.has(item.phase) ? [] : [{ what: 'missing', number, says: `Not shown: ${item.condition}` }]
  }
}

function lackInWords(item: StepItem, { what, id }: Lack): readonly Remark[] {
  const { number } = item
  if (what === 'outlet') return []
  const reading = item.readings.flatMap(({ id: of, words, positions }) =>
    positions.flatMap((position) =>
      readingKey(of, position) === id ? [position === null ? words : `${words}, ${position}`] : [],
    ),
  )[0]
  const wait = item.waits.find((one) => one.id === id)?.says
  const tick = item.ticks.find((one) => one.id === id)?.says
  const name = reading ?? wait ?? tick ?? ''
  return [
    { what: 'missing', number, says: what === 'wait' ? `Ticked before its time: ${name}.` : `Not filled in: ${name}.` },
  ]
}

function readingRemarks(item: StepItem, state: JobState): readonly Remark[] {
  const here = item.readings.filter(({ only }) => applies(only, state))
  return here.flatMap((reading) =>
    reading.positions.flatMap((position): readonly Remark[] => {
      const key = readingKey(reading.id, position)
      const name = position === null ? reading.words : `${reading.words}, ${position}`
      const earlier = (state.earlierReadings.get(key) ?? []).flatMap((entered) =>
        oneReading(item.number, name, entered, ' at an earlier try'),
      )
      const entered = state.readings.get(key)
      return entered === undefined ? earlier : [...earlier, ...oneReading(item.number, name, entered, '')]
    }),
  )
}

function oneReading(
  number: string,
  name: string,
  { typed, verdict, limit, before }: Reading,
  when: string,
): readonly Remark[] {
  const of = limit === '' ? '' : `, limit ${limit}`
  return [
    ...before.map(
      ({ typed: was, because }): Remark => ({
        what: 'corrected',
        number,
        says: `${name}: ${was} changed to ${typed}: ${because}`,
      }),
    ),
    ...(outOfLimit.has(verdict)
      ? [{ what: 'out-of-limit', number, says: `${name}: ${typed}${of}${when} (${verdict}).` } as const]
      : []),
  ]
}
