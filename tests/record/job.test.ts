import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { noMove } from '../../src/record/entry.ts'
import type { Job, JobItem, SignItem, StepItem, UntilItem } from '../../src/record/job.ts'
import { makeJob } from '../../src/record/make-job.ts'
import { moveAgain, moveTo, outletOf } from '../../src/record/outlet.ts'
import { whyNotCrew, whyNotSigner } from '../../src/record/people.ts'
import { lacksOf, survey } from '../../src/record/survey.ts'
import { conditionHolds } from '../../src/record/worked-out.ts'
import { sampleStepFile } from '../outputs/checklist/sample-step-file.ts'
import { consequence, phase, reading, step, stepFile } from '../outputs/checklist/step-file-parts.ts'
import { beltJob, typedLimit } from '../outputs/page/page-sample.ts'
import { type Done, instant, person, reads, signsIn, stateOf } from './happenings.ts'

/** The reckoning of the page without a page: entries in, what may be done next out. */

const started: readonly Done[] = [
  signsIn('fitter', 'Ann Lee'),
  signsIn('second', 'Cy Dunn'),
  signsIn('rigger', 'Di Roe'),
  { kind: 'variant', name: 'bolt', value: 'm20' },
  { kind: 'variant', name: 'wheel-stud', value: 'm22' },
]

const itemOf = <Kind extends JobItem['kind']>(job: Job, id: string, kind: Kind) => {
  const item = job.items.find((candidate) => candidate.id === id)
  if (item?.kind !== kind) throw new Error(`no ${kind} ${id}`)
  return item as Extract<JobItem, { kind: Kind }>
}

/** Whatever may be done with one item when the page lets it be done. */
function ways(item: JobItem, job: Job): readonly Done[] {
  switch (item.kind) {
    case 'step':
      return [{ kind: 'tick', item: item.id }]
    case 'sign':
      return [
        { kind: 'sign', hold: item.hold, meaning: 'released', by: [person(item.role, 'Bo Hart')] },
        ...(item.holdKind === 'witness'
          ? [{ kind: 'waive', hold: item.hold, by: [person(item.role, 'Bo Hart')] } as const]
          : []),
      ]
    case 'decide':
      return item.branches.map((branch, index) => ({
        kind: 'decide',
        step: item.step,
        branch: index,
        says: branch.says,
        move: branch.action === 'go' ? moveTo(job, item, branch.target) : noMove,
      }))
    case 'until':
      return [
        { kind: 'until', phase: item.phase, met: true, attempt: 1, move: noMove },
        { kind: 'until', phase: item.phase, met: false, attempt: 2, move: moveAgain(job, item, [item.phase]) },
      ]
  }
}

describe('what may be done next', () => {
  it.each([
    ['belt', makeJob(beltJob)],
    ['hub', makeJob(sampleStepFile)],
  ] as const)('never lets anything after an open hold, decision or stop be done (%s)', (_, job) => {
    fc.assert(
      fc.property(fc.array(fc.nat(), { maxLength: 60 }), (choices) => {
        const happenings: Done[] = [...started]
        for (const choice of choices) {
          const now = survey(job, stateOf(job, happenings), instant())
          const open = now.inOrder.filter(({ status }) => status === 'open')
          const possible = open.flatMap(({ item }) => ways(item, job))
          const next = possible[choice % Math.max(1, possible.length)]
          if (next === undefined) break
          happenings.push(next)
        }
        const now = survey(job, stateOf(job, happenings), instant())
        const due = now.inOrder.filter(({ status }) => status !== 'off')
        const stopper = due.findIndex(
          ({ item, status }) =>
            status !== 'done' && item.kind !== 'step' && !(item.kind === 'sign' && item.holdKind === 'review'),
        )
        const after = stopper === -1 ? [] : due.slice(stopper + 1)
        expect(after.filter(({ status }) => status === 'open')).toEqual([])
        // A job that is neither stopped nor done always has something to do.
        if (now.stop === null && now.done < now.total) expect(now.next).not.toBeNull()
      }),
      { numRuns: 60 },
    )
  })

  it('waits for names and variants before the first step', () => {
    const job = makeJob(beltJob)
    const now = survey(job, stateOf(job, []), instant())
    expect(now.missingAtStart).toEqual([
      { field: 'variant', name: 'bolt' },
      { field: 'person', name: 'fitter' },
    ])
    expect(now.inOrder.every(({ status }) => status === 'blocked')).toBe(true)
  })
})

describe('out of limit', () => {
  const job = makeJob(beltJob)
  const pressure = itemOf(job, 'step:isolate/pressure', 'step')
  const high: Done = reads('isolate/pressure#pressure', '0.6 MPa', 'high')

  it('takes back everything from the step that is done again, signatures too', () => {
    const move = moveAgain(job, pressure, ['isolate/lock'])
    expect(move.clears).toEqual(['step:isolate/lock', 'step:isolate/pressure'])
    const back = moveTo(job, itemOf(job, 'decide:align/decide', 'decide'), 'isolate')
    expect(back.clears).toContain('sign:isolate/proven#supervisor')
    const state = stateOf(job, [
      ...started,
      { kind: 'sign', hold: 'isolate/proven#supervisor', meaning: 'released', by: [person('supervisor', 'Bo Hart')] },
      { kind: 'decide', step: 'align/decide', branch: 0, says: '', move: back },
    ])
    expect(state.signatures.size).toBe(0)
    expect(state.decisions.size).toBe(0)
  })

  it('stops when the last try is used up, and cannot be ticked away', () => {
    const again: Done = {
      kind: 'again',
      step: 'isolate/pressure',
      attempt: 2,
      move: moveAgain(job, pressure, ['isolate/lock']),
    }
    const first = outletOf(pressure, stateOf(job, [...started, high]))
    expect(first?.consequence?.action).toBe('redo')
    const last = stateOf(job, [...started, high, again, high])
    expect(outletOf(pressure, last)?.consequence?.action).toBe('stop')
    expect(lacksOf(pressure, last, instant()).map(({ what }) => what)).toContain('outlet')
    expect(survey(job, last, instant()).stop?.says).toContain('The cylinder cannot be bled here.')
    expect(last.earlierReadings.get('isolate/pressure#pressure')?.map(({ typed }) => typed)).toEqual(['0.6 MPa'])
  })

  it('takes the reading’s own consequence before the one for all, and the side before either', () => {
    const mixed = makeJob(
      stepFile({
        phases: [
          phase('p', '1', 'One', {
            steps: [
              step('p/s', '1.1', 'Read.', {
                readings: [reading('a', 'measure', { limit: typedLimit('1 to 2 mm') })],
                consequences: [
                  consequence({ action: 'stop' }),
                  consequence({ on: 'low', reading: 'a', action: 'redo', targets: [{ id: 'p/s', number: '1.1' }] }),
                ],
              }),
            ],
          }),
        ],
      }),
    )
    const item: StepItem = itemOf(mixed, 'step:p/s', 'step')
    const read = (verdict: 'low' | 'high') => outletOf(item, stateOf(mixed, [reads('p/s#a', '9', verdict)]))
    expect(read('low')?.consequence?.action).toBe('redo')
    expect(read('high')?.consequence?.action).toBe('stop')
  })

  it('does a repeated phase again until it is so, and stops when no tries are left', () => {
    const hub = makeJob(sampleStepFile)
    const until: UntilItem = itemOf(hub, 'until:end-play', 'until')
    const notMet = (attempt: number): Done => ({
      kind: 'until',
      phase: 'end-play',
      met: false,
      attempt,
      move: attempt > 3 ? noMove : moveAgain(hub, until, ['end-play']),
    })
    const verify: Done = {
      kind: 'sign',
      hold: 'end-play/verify#supervisor',
      meaning: 'released',
      by: [person('supervisor', 'Bo')],
    }
    const second = stateOf(hub, [...started, verify, notMet(2)])
    expect(second.signatures.has('end-play/verify#supervisor')).toBe(false)
    expect(outletOf(until, second)).toBeNull()
    expect(outletOf(until, stateOf(hub, [...started, notMet(2), notMet(3), notMet(4)]))?.consequence?.says).toContain(
      'Do not close the hub.',
    )
  })
})

describe('people', () => {
  const job = makeJob(beltJob)
  const h1: SignItem = itemOf(job, 'sign:isolate/proven#supervisor', 'sign')

  it('keeps a signer apart from those whose work is signed for, also after a change of crew', () => {
    const state = stateOf(job, [
      ...started,
      { kind: 'tick', item: 'step:isolate/lock', by: [person('fitter', 'Ann Lee')] },
      signsIn('fitter', 'Eve Fox'),
    ])
    expect(whyNotSigner(job, state, h1, 'ANN LEE ')).toContain('another person')
    expect(whyNotSigner(job, state, h1, 'eve fox')).toContain('another person')
    expect(whyNotSigner(job, state, h1, 'Bo Hart')).toBeNull()
  })

  it('does not let a signer take up the work afterwards', () => {
    const state = stateOf(job, [
      ...started,
      { kind: 'sign', hold: h1.hold, meaning: 'released', by: [person('supervisor', 'Bo Hart')] },
    ])
    expect(whyNotCrew(job, state, 'fitter', 'bo hart')).toContain('H1')
    expect(whyNotCrew(job, state, 'fitter', 'Ann Lee')).toBeNull()
  })
})

it('reads a condition in the position it stands in', () => {
  const job = makeJob(sampleStepFile)
  const look = (side: string, typed: string): Done =>
    reads(`hub-off@${side}/look#bearing-look`, typed, typed === 'good' ? 'in' : 'out')
  const state = stateOf(job, [...started, look('left', 'good'), look('right', 'failed')])
  const at = (side: string) => itemOf(job, `decide:hub-off@${side}/decide`, 'decide')
  expect(conditionHolds(job, state, at('left'), 'bearing-look = good')).toBe(true)
  expect(conditionHolds(job, state, at('right'), 'bearing-look = good')).toBe(false)
  expect(conditionHolds(job, state, at('right'), 'bearing-look.left = good')).toBe(true)
  expect(conditionHolds(job, state, at('left'), 'end-play-found in limit')).toBeNull()
})
