import { describe, expect, it } from 'vitest'
import { makeJob } from '../../src/record/make-job.ts'
import { clearedByProving, openThings, standingProofs, statesNow } from '../../src/record/standing.ts'
import { lacksOf, openBefore, survey } from '../../src/record/survey.ts'
import { timeInWords, timersOf } from '../../src/record/timers.ts'
import { conditionHolds } from '../../src/record/worked-out.ts'
import { type Done, instant, person, reads, signsIn, stateOf } from './happenings.ts'
import { pumpJob } from './pump-job.ts'

/** Waits, fire watches, locks and proofs as time goes by. */

const job = makeJob(pumpJob())
const lockStep = 'isolate/switch-the-pump-off-then-fit-your-own'
const heat = 'step:seal/heat-the-old-seal-and-cut-it-off'
const press = 'step:seal/press-the-new-seal-in'
const at = (time: string): string => `2026-03-02T${time}:00+10:00`

const isolated: readonly Done[] = [
  signsIn('fitter', 'Ann Lee'),
  { kind: 'tick', item: `thing:${lockStep}:Lock on:pump-isolator`, by: [person('fitter', 'Ann Lee')] },
  { kind: 'tick', item: `step:${lockStep}` },
  reads('try#voltage', '0 V', 'in'),
  { kind: 'tick', item: 'step:try' },
  {
    kind: 'sign',
    hold: 'try#hold-supervisor',
    meaning: 'released',
    by: [person('supervisor', 'Bo Hart')],
    on: at('22:00'),
  },
]

const itemOf = (id: string) => {
  const item = job.items.find((one) => one.id === id)
  if (item?.kind !== 'step') throw new Error(`no step ${id}`)
  return item
}

const standing = (done: readonly Done[], time: string, id: string) =>
  survey(job, stateOf(job, done), instant(at(time))).standings.get(id)

describe('a wait', () => {
  const started: readonly Done[] = [
    ...isolated,
    { kind: 'tick', item: heat, on: at('22:00') },
    { kind: 'wait', wait: 'wait:cool:1', on: at('22:10') },
  ]

  it('keeps its step from being done until it is over, and what follows with it', () => {
    const lacks = (time: string) =>
      lacksOf(itemOf('step:cool'), stateOf(job, started), instant(at(time))).map(({ what }) => what)
    expect(lacks('22:29')).toEqual(['wait'])
    expect(lacks('22:30')).toEqual([])
    expect(standing(started, '22:20', 'step:seal/wipe-the-bore')).toMatchObject({
      status: 'blocked',
      why: 'Wait at 2.2 first: min 20 min.',
    })
  })

  it('is ended early only as a deviation', () => {
    const early: Done = {
      kind: 'deviation',
      step: 'cool',
      wait: 'wait:cool:1',
      text: 'Early',
      because: 'Cold air',
      on: at('22:15'),
    }
    expect(lacksOf(itemOf('step:cool'), stateOf(job, [...started, early]), instant(at('22:16')))).toEqual([])
    // Done again, the wait is waited again.
    const again: Done = {
      kind: 'again',
      step: 'cool',
      attempt: 2,
      move: { clears: ['step:cool'], passesOver: [], opens: null },
    }
    const restarted: Done = { kind: 'wait', wait: 'wait:cool:1', on: at('23:00') }
    const state = stateOf(job, [...started, early, again, restarted])
    expect(lacksOf(itemOf('step:cool'), state, instant(at('23:01'))).map(({ what }) => what)).toEqual(['wait'])
  })

  it('counted from another step opens at its earliest, and asks for a deviation after its latest', () => {
    const cooled: readonly Done[] = [
      ...started,
      { kind: 'tick', item: 'step:cool', on: at('22:31') },
      { kind: 'tick', item: 'step:seal/wipe-the-bore', on: at('22:32') },
    ]
    expect(standing(cooled, '22:40', press)).toMatchObject({
      status: 'blocked',
      why: 'Wait first: 10 min to 40 min, after cool. 1 min 00 s left.',
    })
    expect(standing(cooled, '22:41', press)?.status).toBe('open')
    const late = lacksOf(itemOf(press), stateOf(job, cooled), instant(at('23:12')))
    expect(late.map(({ what }) => what)).toContain('wait')
  })

  it('begins with the tick where it is a fire watch, and holds back the next signature', () => {
    const all: readonly Done[] = [
      ...started,
      { kind: 'tick', item: 'step:cool', on: at('22:31') },
      { kind: 'tick', item: 'step:seal/wipe-the-bore', on: at('22:32') },
      { kind: 'tick', item: press, on: at('22:45') },
    ]
    const sign = job.items.find(({ id }) => id === 'sign:seal/press-the-new-seal-in#hold-supervisor')
    if (!sign) throw new Error('no H2')
    const first = (time: string) =>
      openBefore(survey(job, stateOf(job, all), instant(at(time))), sign).map(({ item }) => item.number)
    // 60 min after the last spark at 22:00.
    expect(first('22:59')).toEqual(['2.1'])
    expect(first('23:00')).toEqual([])
  })

  it('is told in hours, minutes and seconds', () => {
    expect([0, 12, 249, 3900].map(timeInWords)).toEqual(['0 s', '12 s', '4 min 09 s', '1 h 05 min'])
    const [timer] = timersOf(itemOf('step:cool'), stateOf(job, started), instant(at('22:00')))
    // A clock set back shows no negative time.
    expect(timer).toMatchObject({ elapsed: 0, left: 1200 })
  })
})

describe('a proof', () => {
  it('stands until its state changes, and blocks when it is too old', () => {
    const state = stateOf(job, isolated)
    expect(standingProofs(job, state).map(({ says, how }) => `${says}, ${how}`)).toEqual(['power isolated, H1 at 1.2'])
    // The states of this job say: lapses 8 h.
    expect(standing(isolated, '23:00', heat)?.status).toBe('open')
    const next = survey(job, state, instant('2026-03-03T06:00:00+10:00'))
    expect(next.lapsed.map(({ state: id }) => id)).toEqual(['power'])
    expect(next.standings.get(heat)).toMatchObject({
      status: 'blocked',
      why: 'Too old: power isolated (H1 at 1.2). Prove it again first.',
    })
    const live: readonly Done[] = [
      ...isolated,
      { kind: 'tick', item: 'step:back/take-your-lock-off-and-switch-the-pump' },
    ]
    expect(standingProofs(job, stateOf(job, live))).toEqual([])
  })

  it('that is handed over is withdrawn, and blocks until it is taken again', () => {
    const proofs = standingProofs(job, stateOf(job, isolated))
    const clears = clearedByProving(job, proofs)
    expect(clears).toEqual(['step:try', 'sign:try#hold-supervisor'])
    const over: Done = {
      kind: 'handover',
      where: heat,
      to: person('fitter', 'Cy Dunn'),
      states: [],
      open: [],
      locks: [],
      withdrawn: proofs.map(({ says }) => says),
      text: '',
      move: { clears, passesOver: [], opens: null },
      by: [person('fitter', 'Ann Lee')],
      on: at('22:30'),
    }
    const state = stateOf(job, [...isolated, over])
    const now = survey(job, state, instant(at('22:31')))
    expect(state.people.get('fitter')?.name).toBe('Cy Dunn')
    expect(now.next?.item.id).toBe('step:try')
    expect(now.standings.get(heat)).toMatchObject({ status: 'blocked', why: 'Waits for H1: Lock on and pump dead.' })
    expect(lacksOf(itemOf('step:try'), state, instant(at('22:31'))).map(({ what }) => what)).toEqual(['reading'])
    expect(state.withdrawn.map(({ name, hold }) => `${name} ${hold}`)).toEqual(['Bo Hart try#hold-supervisor'])
    // The lock is still on: only what proves is taken again.
    expect(openThings(job, state).map(({ says, by }) => `${says}, ${by}`)).toEqual(['Lock on: pump isolator, Ann Lee'])
  })
})

it('knows a state in a condition by the steps that were done', () => {
  const wipe = itemOf('step:seal/wipe-the-bore')
  const says = (done: readonly Done[]) => conditionHolds(job, stateOf(job, done), wipe, 'chamber = cold')
  expect(says([])).toBe(false)
  expect(says([{ kind: 'tick', item: 'step:cool' }])).toBe(true)
  expect(
    says([
      { kind: 'tick', item: 'step:cool' },
      { kind: 'untick', item: 'step:cool', because: '' },
    ]),
  ).toBe(false)
  expect(statesNow(job, stateOf(job, isolated)).get('power')).toBe('isolated')
})
