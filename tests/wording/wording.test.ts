import { describe, expect, it } from 'vitest'
import { consequenceLines } from '../../src/wording/consequence-text.ts'
import { proofInWords, proofsBefore } from '../../src/wording/proof-trail.ts'
import { inWords } from '../../src/wording/state-text.ts'
import { whatCanKill } from '../../src/wording/what-can-kill.ts'
import { sampleStepFile } from '../outputs/checklist/sample-step-file.ts'
import { claim, consequence, hazard, hold, phase, state, step, stepFile } from '../outputs/checklist/step-file-parts.ts'

it.each([
  ['on-stands', 'on stands'],
  ['0451E2', '0451E2'],
  ['hole-1', 'hole 1'],
  ['1/2-13', '1/2-13'],
])('the name %s reads %s', (name, words) => {
  expect(inWords(name)).toBe(words)
})

describe('what follows out of limit', () => {
  const says = (parts: Parameters<typeof consequence>[0], last = null as ReturnType<typeof consequence> | null) =>
    consequenceLines(sampleStepFile, consequence(parts, last), 'isolate/read').map(
      (line) => `${line.head}: ${line.text}`,
    )

  it('names the step to go back to, the tries and what comes after the last', () => {
    const back = { action: 'redo', targets: [{ id: 'isolate/bleed', number: '1.2' }], atMost: 3 } as const
    expect(says(back, consequence({ reason: 'Call the electrician', leave: [claim('axle', 'on-stands')] }))).toEqual([
      'OUT: Back to 1.2, and on from there again. 3 tries at most, the first included.',
      'OUT, TRY 3: STOP. Call the electrician. Leave as it is: axle on stands.',
    ])
  })

  it('says "this step" for the step itself', () => {
    const again = { action: 'redo', targets: [{ id: 'isolate/read', number: '1.4' }], atMost: 1 } as const
    expect(says(again)).toEqual(['OUT: Do this step again. One try only.'])
  })

  it('draws three steps in a row together, and no others', () => {
    const target = (id: string, number: string) => ({ id: `isolate/${id}`, number })
    const row = [target('bleed', '1.2'), target('lock', '1.3'), target('read', '1.4')]
    const gap = [target('park', '1.1'), target('lock', '1.3'), target('read', '1.4')]
    expect(says({ action: 'redo', targets: row })).toEqual(['OUT: Do 1.2 to 1.4 again.'])
    expect(says({ action: 'redo', targets: gap })).toEqual(['OUT: Do 1.1, 1.3, 1.4 again.'])
  })
})

describe('what stands proved', () => {
  const power = [state('power', ['live', 'isolated'], { energy: 'electrical', safe: ['isolated'] })]
  const prove = step('a/prove', '1.1', 'Prove it.', {
    proves: [claim('power', 'isolated')],
    holds: [hold('a/prove', 'supervisor', 'Dead.')],
  })
  const live = step('a/live', '1.2', 'Switch on.', { sets: [claim('power', 'live')] })
  const next = phase('b', '2', 'Next', { steps: [step('b/go', '2.1', 'Go in.')] })
  const document = (...steps: (typeof prove)[]) => {
    const phases = [phase('a', '1', 'First', { steps }), next]
    const holds = [
      {
        hold: 'a/prove#supervisor',
        step: 'a/prove',
        number: '1.1',
        position: null,
        kind: 'hold' as const,
        role: 'supervisor',
        says: 'Dead.',
        proves: [claim('power', 'isolated')],
        zones: [],
        hazards: ['shock'],
      },
    ]
    return stepFile({ states: power, phases, holds })
  }

  it('lasts until the state changes', () => {
    const kept = proofsBefore(document(prove)).get('b/go')?.get('power')
    expect(kept && proofInWords(kept)).toBe('H1 at 1.1')
    expect(proofsBefore(document(prove, live)).get('b/go')?.has('power')).toBe(false)
  })

  it('counts for nothing after a branch, or a step that may be skipped', () => {
    const branch = { ...document(prove), phases: [phase('a', '1A', 'Way', { kind: 'branch', steps: [prove] }), next] }
    expect(proofsBefore(branch).get('b/go')?.has('power')).toBe(false)
    expect(
      proofsBefore(document({ ...prove, when: 'x = 1' }))
        .get('b/go')
        ?.has('power'),
    ).toBe(false)
  })

  it('is named against a hazard only where it proves a state of that energy', () => {
    const shock = (energyClass: string) =>
      hazard('shock', 'danger', { hazard: 'Shock', consequence: 'kills', avoid: 'Keep off.', energyClass })
    const meet = phase('b', '2', 'Next', { steps: [step('b/go', '2.1', 'Go in.', { hazards: ['shock'] })] })
    const file = (energyClass: string) => {
      const base = document(prove)
      return { ...base, hazards: [shock(energyClass)], phases: [...base.phases.slice(0, 1), meet] }
    }
    expect(whatCanKill(file('electrical')).lines[0]).toMatchObject({
      proved: 'H1 at 1.1: power isolated',
      provedBySignature: true,
    })
    expect(whatCanKill(file('gravity')).lines[0]).toMatchObject({
      proved: 'nothing proves it; read it at 2.1',
      provedBySignature: false,
    })
  })
})

it('a place rests only on signatures that prove what it rests on: no witness, no other role', () => {
  const power = state('power', ['live', 'isolated'], { safe: ['isolated'], provedBy: ['supervisor'] })
  const zone = {
    id: 'under',
    name: 'under',
    position: null,
    what: 'below it',
    safeWhen: [claim('power', 'isolated')],
    entry: null,
  }
  const proved = (...holds: ReturnType<typeof hold>[]) => {
    const steps = [step('a/prove', '1.1', 'Prove it.', { proves: [claim('power', 'isolated')], holds })]
    const summaries = holds.map(({ id, kind, role, says }) => ({
      ...{ hold: id, step: 'a/prove', number: '1.1', position: null, kind, role, says, hazards: [] },
      proves: [claim('power', 'isolated')],
      zones: ['under'],
    }))
    const phases = [phase('a', '1', 'First', { steps })]
    return whatCanKill(stepFile({ states: [power], zones: [zone], phases, holds: summaries })).lines[0]?.proved
  }
  const signed = hold('a/prove', 'supervisor', 'Dead.')
  expect(proved({ ...signed, id: 'w', kind: 'witness' }, signed)).toBe('H2 at 1.1')
  expect(proved({ ...signed, id: 'f', role: 'fitter' }, signed)).toBe('H2 at 1.1')
  expect(proved({ ...signed, timing: 'before' })).toBe('no signature')
})

it('the first page has five lines at most, DANGER first, and says how many more there are', () => {
  const words = ['warning', 'danger'] as const
  const hazards = Array.from({ length: 12 }, (_, index) =>
    hazard(`h${index}`, words[index % 2] ?? 'danger', { hazard: `H${index}`, consequence: 'kills', avoid: 'Out.' }),
  )
  const met = step('a/b', '1.1', 'Go in.', { hazards: hazards.map((one) => one.id) })
  const found = whatCanKill(stepFile({ hazards, phases: [phase('a', '1', 'Phase', { steps: [met] })] }))
  expect(found.lines.map((line) => line.signalWord)).toEqual(Array(5).fill('danger'))
  expect(found.more).toBe(7)
})
