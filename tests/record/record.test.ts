import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { validators } from '#generated/schema-validators'
import { schemas } from '#generated/schemas'
import { brokenLinks, entryAfter, joinEntries } from '../../src/record/chain.ts'
import type { Entry } from '../../src/record/entry.ts'
import { isEntry } from '../../src/record/entry-shape.ts'
import { makeJob } from '../../src/record/make-job.ts'
import { digestOfRecord, makeRecord } from '../../src/record/make-record.ts'
import { mergeRecords } from '../../src/record/merge-records.ts'
import { readRecord } from '../../src/record/read-record.ts'
import type { RunRecord } from '../../src/record/run-record.ts'
import { tellRecord } from '../../src/record/tell-record.ts'
import { type Done, entriesOf, evening, person, reads, signsIn } from './happenings.ts'
import { pumpJob } from './pump-job.ts'

const job = makeJob(pumpJob())
const lock = 'thing:isolate/switch-the-pump-off-then-fit-your-own:Lock on:pump-isolator'
const ann = person('fitter', 'Ann Lee')
const bo = person('supervisor', 'Bo Hart')
const photo = 'ff'.repeat(32)

/** One of every kind of entry. */
const done: readonly Done[] = [
  { kind: 'equipment', text: 'PU-7, serial 4411' },
  signsIn('fitter', 'Ann Lee'),
  signsIn('supervisor', 'Bo Hart'),
  { kind: 'variant', name: 'none', value: 'none' },
  { kind: 'identity', for: 'parts:seal', part: 'lot', text: 'L-20', correction: null, by: [ann] },
  {
    kind: 'identity',
    for: 'parts:seal',
    part: 'lot',
    text: 'L-21',
    correction: { was: 'L-20', because: 'Misread' },
    by: [ann],
  },
  { kind: 'tick', item: lock, by: [ann] },
  { kind: 'tick', item: 'step:isolate/switch-the-pump-off-then-fit-your-own', by: [ann] },
  { ...reads('try#voltage', '7 V', 'high'), by: [ann] } as Done,
  { ...reads('try#voltage', '230 V', 'high'), correction: { was: '7 V', because: 'Mistyped' }, by: [ann] } as Done,
  { kind: 'again', step: 'try', attempt: 2, move: { clears: ['step:try'], passesOver: [], opens: null }, by: [ann] },
  { ...reads('try#voltage', '0.2 V', 'in'), limit: 'max 5 V', by: [ann] } as Done,
  { kind: 'tick', item: 'step:try', by: [ann] },
  { kind: 'untick', item: 'step:try', because: 'Ticked by mistake', by: [ann] },
  { kind: 'tick', item: 'step:try', by: [ann] },
  { kind: 'sign', hold: 'try#hold-supervisor', meaning: 'released', by: [bo] },
  { kind: 'note', step: 'try', text: 'Cover was loose.', by: [ann] },
  { kind: 'photo', step: 'try', photo, mediaType: 'image/jpeg', bytes: 12, by: [ann] },
  { kind: 'wait', wait: 'wait:cool:1', by: [ann] },
  { kind: 'deviation', step: 'cool', wait: 'wait:cool:1', text: 'Ended early', because: 'Cold air', by: [bo] },
  { kind: 'skip', part: 'seal/wipe-the-bore', by: [ann] },
  { kind: 'unskip', part: 'seal/wipe-the-bore', by: [ann] },
  { kind: 'decide', step: 'x', branch: 0, says: 'yes', move: { clears: [], passesOver: [], opens: null } },
  { kind: 'undecide', step: 'x', because: 'Pressed by mistake' },
  { kind: 'go', step: 'x', move: { clears: [], passesOver: [], opens: null } },
  { kind: 'until', phase: 'x', met: true, attempt: 1, move: { clears: [], passesOver: [], opens: null } },
  { kind: 'waive', hold: 'x', by: [bo] },
  {
    kind: 'handover',
    where: 'step:cool',
    to: person('fitter', 'Cy Dunn'),
    states: [['power', 'isolated']],
    open: [],
    locks: [{ lock: 'Lock on: pump isolator', of: 'Ann Lee' }],
    withdrawn: ['power isolated (H1 at 1.2)'],
    text: 'Seal is out.',
    move: { clears: ['step:try', 'sign:try#hold-supervisor'], passesOver: [], opens: null },
    by: [ann],
  },
  { kind: 'prove-again', withdrawn: [], move: { clears: [], passesOver: [], opens: null } },
  { kind: 'stop', item: 'step:try', because: 'No light.', by: [ann] },
  { kind: 'end', how: 'stopped', text: 'Left locked.', by: [ann] },
]

const entries = entriesOf(job, done)
const parts = {
  entries,
  source: 'page',
  saved: '2026-03-03T06:00:00+10:00',
  photos: new Map<string, string>(),
} as const
const record = makeRecord(job, parts)
const asText = (value: unknown): string => JSON.stringify(value)

describe('the record', () => {
  it('is what its schema says, with one of every kind of entry', () => {
    const validate = validators.record
    expect(validate?.(record), asText(validate?.errors)).toBe(true)
    const kinds = (schemas.record as { $defs: { entry: { oneOf: { properties: { kind: { const: string } } }[] } } })
      .$defs
    const inSchema = kinds.entry.oneOf.map(({ properties }) => properties.kind.const)
    expect([...new Set(entries.map(({ kind }) => kind))].sort()).toEqual([...inSchema].sort())
  })

  it('is read back as it was', () => {
    expect(readRecord(asText(record))).toEqual({ record, faults: [] })
  })

  /** What the sections ask a record to hold, as a model; where each stands in ours. No claim that a user of it complies. */
  const asked: readonly (readonly [section: string, asks: string, holds: (one: RunRecord) => unknown])[] = [
    [
      '21 CFR 11.10(e)',
      'date and time of what operators enter, in the order made',
      ({ entries }) => entries.every(({ at }) => at !== ''),
    ],
    ['21 CFR 11.10(e)', 'who entered it', ({ steps }) => steps[0]?.by.map(({ name }) => name).join() === 'Ann Lee'],
    [
      '21 CFR 11.10(e)',
      'changes do not obscure what was recorded before',
      ({ steps }) => steps[1]?.readings[0]?.corrections[0]?.was === '7 V' && steps[1]?.readings[0]?.typed === '230 V',
    ],
    ['21 CFR 11.50(a)(1)', 'printed name of the signer', ({ holds }) => holds[0]?.name === 'Bo Hart'],
    ['21 CFR 11.50(a)(2)', 'date and time of the signature', ({ holds }) => holds[0]?.at === evening],
    ['21 CFR 11.50(a)(3)', 'meaning of the signature', ({ holds }) => holds[0]?.meaning === 'released'],
    [
      '21 CFR 11.70',
      'a signature is linked to its record and cannot be moved',
      ({ holds, entries, run }) => {
        const signature = entries.find(({ id }) => id === holds[0]?.entry)
        return signature?.kind === 'sign' && brokenLinks({ run: `${run}x`, procedure: job.digest }, entries).length > 0
      },
    ],
    [
      '21 CFR 211.188(a)',
      'the master it reproduces, checked',
      ({ document }) => document.digest === job.digest && document.revision === 'A',
    ],
    ['21 CFR 211.188(b)(1)', 'dates', ({ begun }) => begun === evening],
    ['21 CFR 211.188(b)(2)', 'identity of major equipment', ({ equipment }) => equipment === 'PU-7, serial 4411'],
    [
      '21 CFR 211.188(b)(3)',
      'identification of each material used',
      ({ identities }) => identities[0]?.text === 'L-21',
    ],
    [
      '21 CFR 211.188(b)(5)',
      'in-process results',
      ({ steps }) => steps[1]?.readings.map(({ typed }) => typed).join() === '230 V,0.2 V',
    ],
    [
      '21 CFR 211.188(b)(11)',
      'persons performing and supervising each significant step',
      ({ steps, holds }) => steps[0]?.by[0]?.initials === 'AL' && holds[0]?.initials === 'BH',
    ],
    [
      '10 CFR 50 Appendix B, Criterion XVII',
      'recorder, observation, result, acceptability, action on deficiency',
      ({ steps, tries }) => {
        const reading = steps[1]?.readings.at(-1)
        return (
          reading?.by[0]?.name === 'Ann Lee' &&
          reading.verdict === 'in' &&
          reading.limit === 'max 5 V' &&
          tries.length === 1
        )
      },
    ],
  ]

  it.each(asked)('holds what %s asks: %s', (_, __, holds) => {
    expect(holds(record)).toBe(true)
  })

  it('shows whatever is changed in it afterwards, digest made anew or not', () => {
    const leaves = pathsIn(record.entries)
    fc.assert(
      fc.property(fc.nat(leaves.length - 1), (index) => {
        const changed: { -readonly [Key in keyof RunRecord]: RunRecord[Key] } = structuredClone(record)
        alter(changed.entries, leaves[index] ?? [])
        expect(readRecord(asText(changed)).record).toBeNull()
        const { digest: _, ...rest } = changed
        expect(readRecord(asText({ ...rest, digest: digestOfRecord(rest) })).record).toBeNull()
      }),
      { numRuns: 120 },
    )
  })

  it('shows an entry taken out, put in another place, or brought from another run', () => {
    const binding = { run: 'run-1', procedure: job.digest }
    expect(brokenLinks(binding, entries)).toEqual([])
    for (let index = 0; index < entries.length - 1; index++)
      expect(
        brokenLinks(
          binding,
          entries.filter((_, other) => other !== index),
        ).length,
      ).toBeGreaterThan(0)
    const [first, second, third, ...rest] = entries
    if (!first || !second || !third) throw new Error('too short')
    expect(brokenLinks(binding, [first, third, second, ...rest])).not.toEqual([])
    expect(brokenLinks({ ...binding, run: 'run-2' }, entries)).not.toEqual([])
  })

  it('takes as an entry what the schema takes, and nothing else', () => {
    const schemaSays = (entry: unknown): boolean => validators.record?.({ ...record, entries: [entry] }) ?? false
    const values = [null, '', 'x', 3, -1, 1.5, true, [], {}, ['x'], 'x'.repeat(20_001), { __proto__: null, role: 'x' }]
    fc.assert(
      fc.property(
        fc.constantFrom(...entries),
        fc.nat(30),
        fc.constantFrom(...values),
        fc.boolean(),
        (entry, at, value, isExtra) => {
          const keys = Object.keys(entry)
          const key = isExtra ? 'more' : (keys[at % keys.length] ?? '')
          const changed = { ...entry, [key]: value }
          expect(isEntry(changed), `${entry.kind}.${key}: ${asText(value)}`).toBe(schemaSays(changed))
          const { [key as keyof Entry]: _, ...without } = entry
          expect(isEntry(without)).toBe(schemaSays(without))
        },
      ),
      { numRuns: 300 },
    )
  })

  it.each([
    ['nothing', ''],
    ['another file', '{"format":"witnessmark-step-file"}'],
    ['a later version', asText({ ...record, formatVersion: '2.0' })],
    ['a part missing', asText({ ...record, people: undefined })],
    ['no entries', asText({ ...record, entries: [] })],
  ])('refuses %s in words', (_, text) => {
    const { record: read, faults } = readRecord(text)
    expect(read).toBeNull()
    expect(faults[0]).toMatch(/^This (?:is not|record)/)
  })
})

describe('two records of one run', () => {
  const binding = { run: 'run-1', procedure: job.digest }
  const common = entriesOf(job, done.slice(0, 8))
  const more = (who: string, at: string, ...texts: readonly string[]): readonly Entry[] =>
    texts.reduce<readonly Entry[]>(
      (all, text) =>
        all.concat(entryAfter(binding, all, at, [person('fitter', who)], { kind: 'note', step: 'try', text })),
      common,
    )
  const one = makeRecord(job, { ...parts, entries: more('Ann Lee', '2026-03-02T22:10:00+10:00', 'a1', 'a2') })
  const other = makeRecord(job, { ...parts, entries: more('Cy Dunn', '2026-03-02T22:05:00+10:00', 'b1') })

  it('come together with every entry once, whichever comes first', () => {
    const merged = mergeRecords(job, one, other)
    expect(merged.faults).toEqual([])
    expect(merged.record).toEqual(mergeRecords(job, other, one).record)
    expect(merged.record?.notes.map(({ text }) => text)).toEqual(['b1', 'a1', 'a2'])
    expect(merged.record && readRecord(asText(merged.record)).faults).toEqual([])
    expect(merged.record && mergeRecords(job, merged.record, one).record?.entries).toEqual(merged.record?.entries)
  })

  it('go on as one: what is written next rests on both', () => {
    const both = joinEntries(one.entries, other.entries)
    const next = entryAfter(binding, both, evening, [], { kind: 'note', step: 'try', text: 'c' })
    expect(next.after).toHaveLength(2)
    expect(brokenLinks(binding, [...both, next])).toEqual([])
  })

  it('are kept apart where they are of two runs, or of another revision', () => {
    const second = makeRecord(job, { ...parts, entries: entriesOf(job, [], 'run-2') })
    expect(mergeRecords(job, one, second).faults[0]).toContain('two different runs')
    expect(mergeRecords({ ...job, digest: 'sha256:00' }, one, other).faults[0]).toContain('not both of KRQ-PU-007')
  })
})

describe('what is told about a record', () => {
  const told = (list: readonly Done[]) =>
    tellRecord(job, { entries: entriesOf(job, list), saved: parts.saved }).map(
      ({ what, number, says }) => `${what} ${number}: ${says}`,
    )

  it('names what is missing, unsigned, out of limit, corrected and open', () => {
    const all = told([...done.slice(1, 11), { kind: 'tick', item: 'step:try' }])
    expect(all).toEqual(
      expect.arrayContaining([
        'missing : Nobody wrote which equipment this was.',
        'corrected 1.2: voltage: 7 V changed to 230 V: Mistyped',
        'out-of-limit 1.2: voltage: 230 V at an earlier try (high).',
        'unsigned H1: Not signed: Lock on and pump dead.',
        'missing 2.1: Not ticked.',
        'missing 1.2: Not filled in: voltage.',
        'open 1.1: Lock on: pump isolator, by Ann Lee',
      ]),
    )
  })

  it('finds a verdict that the limit does not give', () => {
    expect(told([reads('try#voltage', '230 V', 'in')])).toContain(
      'misjudged 1.2: voltage: 230 V stands there as “in”; by the limit it is “high”.',
    )
  })
})

type Path = readonly (string | number)[]

function pathsIn(value: unknown, path: Path = []): readonly Path[] {
  if (typeof value !== 'object' || value === null) return [path]
  return Object.entries(value).flatMap(([key, inner]) =>
    pathsIn(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  )
}

function alter(target: unknown, path: Path): void {
  const [key, ...rest] = path
  if (key === undefined || typeof target !== 'object' || target === null) return
  const holder = target as Record<string | number, unknown>
  if (rest.length > 0) {
    alter(holder[key], rest)
    return
  }
  const value = holder[key]
  holder[key] =
    typeof value === 'string' ? `${value}x` : typeof value === 'number' ? value + 1 : value === null ? 'x' : !value
}
