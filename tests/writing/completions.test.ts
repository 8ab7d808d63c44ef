import { describe, expect, it } from 'vitest'
import { completions } from '../../src/writing/completions.ts'
import { openAt, openJob, type Typed } from './marked-text.ts'

/** What is typed, what must be offered, what must not be, and what the accepted offer makes of the line. */
interface Case {
  readonly typed: Typed
  readonly offers: readonly string[]
  readonly not?: readonly string[]
  readonly accept?: readonly [label: string, line: string]
}

const cases: Readonly<Record<string, Case>> = {
  'keys of a step': {
    typed: { step: 'wa¦' },
    offers: ['wait', 'hold', 'decide', 'else'],
    not: ['states', 'roles', 'torque', 'measure', 'removes', 'repeat-me'],
    accept: ['wait', '   wait: '],
  },
  'a key that wants states': { typed: { step: '¦' }, offers: ['proves'], accept: ['proves', '   proves: {  }'] },
  'keys of a phase': {
    typed: { phase: '¦\n' },
    offers: ['by', 'repeat', 'keep', 'hazards'],
    not: ['where', 'torque', 'states'],
  },
  'keys of the document': {
    typed: { document: 'h¦\n' },
    offers: ['hazards', 'never', 'gear'],
    not: ['torque', 'states', 'tools'],
  },
  'keys of the front matter': {
    typed: { front: 'r¦\n' },
    offers: ['review-by', 'approvals', 'site'],
    not: ['number', 'status'],
  },
  'a choice': { typed: { front: 'print-units: [¦]\n' }, offers: ['metric', 'inch'] },
  'findings to accept': {
    typed: { front: 'accept:\n  - { finding: tor¦, because: x, role: y }\n' },
    offers: ['references/unknown-reading'],
  },
  'keys of an entry in braces': {
    typed: { front: 'accept:\n  - { finding: x, ¦ }\n' },
    offers: ['because', 'role', 'step'],
    not: ['finding'],
  },
  states: {
    typed: { step: 'sets: { ¦ }' },
    offers: ['power', 'hub', 'belt-guard'],
    accept: ['power', '   sets: { power:  }'],
  },
  'values of a state': { typed: { step: 'sets: { power: ¦ }' }, offers: ['live', 'isolated'], not: ['slung'] },
  'values of a state of one position': {
    typed: { step: 'sets: { hub.left: ¦ }' },
    offers: ['fitted', 'slung'],
    not: ['live'],
  },
  'values of an implied state': { typed: { step: 'needs: { belt-guard: ¦ }' }, offers: ['removed', 'fitted'] },
  'values of a state, on a line of its own': {
    typed: { step: 'sets:\n  power: is¦' },
    offers: ['isolated', 'live'],
    accept: ['isolated', '     power: isolated'],
  },
  zones: { typed: { step: 'where: ¦' }, offers: ['out', 'under-belt'] },
  'roles, each with its zone': { typed: { step: 'where: { ¦ }' }, offers: ['fitter', 'supervisor'] },
  'zones of a role': { typed: { step: 'where: { fitter: ¦ }' }, offers: ['out', 'under-belt'] },
  'who signs': {
    typed: { step: 'hold:\n  ¦' },
    offers: ['supervisor', 'fitter'],
    accept: ['supervisor', '     supervisor: '],
  },
  'steps to do again': { typed: { step: 'else: { redo: ¦ }' }, offers: ['this', 'tighten', 'turn-off'] },
  'what follows': { typed: { step: 'else: ¦' }, offers: ['stop', 'continue', 'isolate', 'guard-on'] },
  'keys of what follows': { typed: { step: 'else: { redo: this, ¦ }' }, offers: ['at-most', 'then'], not: ['redo'] },
  'tools with their names': { typed: { step: 'uses: [¦]' }, offers: ['torque-wrench-a', 'belt-set', 'dial-indicator'] },
  'isolation points of the machine': { typed: { step: 'locks: [¦]' }, offers: ['bc-3-iso'] },
  'what came off': { typed: { step: 'refits: [¦]' }, offers: ['belt-guard'], not: ['bc-3-iso'] },
  'masses of the machine': { typed: { step: 'lift:\n  ¦' }, offers: ['idler'] },
  'words of a short form': {
    typed: { step: 'set:\n  gap: 2 mm, w¦' },
    offers: ['with', 'at', 'as left'],
    accept: ['with', '     gap: 2 mm, with '],
  },
  'a tool in a short form': {
    typed: { step: 'set:\n  gap: 2 mm, with ¦' },
    offers: ['torque-wrench-a', 'dial-indicator'],
  },
  'positions in a short form': { typed: { step: 'set:\n  gap: 2 mm, at ¦' }, offers: ['left', 'right'] },
  'positions in a short form, the second': {
    typed: { step: 'set:\n  gap: 2 mm, at left ri¦' },
    offers: ['right'],
    accept: ['right', '     gap: 2 mm, at left right'],
  },
  limits: { typed: { step: 'set:\n  gap: ¦' }, offers: ['max', 'min'] },
  'units of a torque, newton metres first': {
    typed: { step: 'snug: [x]\nset:\n  gap: 2 ¦' },
    offers: ['mm', 'in', 'N·m'],
  },
  'in quotes between braces': { typed: { step: 'set: { gap: "2 mm, w¦" }' }, offers: ['with', 'as left'] },
  'long form': {
    typed: { step: 'set:\n  gap:\n    limit: 2 mm\n    ¦' },
    offers: ['with', 'at', 'else'],
    not: ['limit'],
  },
  'a formula': { typed: { step: 'derive:\n  skew: abs(¦' }, offers: ['end-play', 'mean', 'power'] },
  'what a derived value is part of': {
    typed: { step: 'when: end¦' },
    offers: ['end-play', 'in limit'],
    accept: ['end-play', '   when: end-play'],
  },
  'hazards of the library': { typed: { step: 'hazards: [¦]' }, offers: ['nip-point'] },
  'gear worn': { typed: { document: 'ppe: [¦]\n' }, offers: ['hard-hat', 'gloves'] },
  fragments: { typed: { phase: 'include: ¦\n' }, offers: ['lock-and-try'] },
  'parameters of a fragment': {
    typed: { phase: 'include: { fragment: lock-and-try, with: { ¦ } }\n' },
    offers: ['isolator'],
  },
  machines: { typed: { document: 'x: 1\n', front: 'machine: ¦\n' }, offers: ['bc-3'] },
  'kinds of energy': { typed: { document: 'hazards:\n  pinch: { energy: ¦ }\n' }, offers: ['gravity', 'motion'] },
  branches: {
    typed: { step: 'decide:\n  ask: Which?\n  branches:\n    - { answer: a, ¦ }' },
    offers: ['go', 'because'],
  },
  'where a branch goes': {
    typed: { step: 'decide:\n  ask: Which?\n  branches:\n    - { answer: a, go: ¦ }' },
    offers: ['stop', 'isolate'],
  },
  variants: { typed: { step: 'only: ¦' }, offers: ['m22', 'm24'] },
  'values in text': {
    typed: { prose: 'Tighten to [=¦' },
    offers: ['housing-bolts', 'end-play'],
    accept: ['end-play', 'Tighten to [=end-play]'],
  },
  'steps in text': {
    typed: { prose: 'As in [the step](#ti¦)' },
    offers: ['tighten', 'isolate'],
    accept: ['tighten', 'As in [the step](#tighten)'],
  },
}

describe('what is offered at the cursor', () => {
  it.each(Object.entries(cases))('%s', (_, { typed, offers, not, accept }) => {
    const { open, offset } = openJob(typed)
    const found = completions(open, offset)
    const labels = found.map(({ label }) => label)
    expect(labels).toEqual(expect.arrayContaining([...offers]))
    for (const label of not ?? []) expect(labels).not.toContain(label)
    if (accept === undefined) return
    const chosen = found.find(({ label }) => label === accept[0])
    const changed = open.text.slice(0, chosen?.start) + chosen?.insert + open.text.slice(chosen?.end)
    expect(changed.split('\n')).toContain(accept[1])
  })

  it('puts the likely units first', () => {
    const { open, offset } = openJob({ step: 'wait: min 5 ¦' })
    expect(
      completions(open, offset)
        .slice(0, 3)
        .map(({ label }) => label),
    ).toEqual(['min', 's', 'h'])
  })

  it('offers a block below a step, as far in as its words', () => {
    const { open, offset } = openAt('## Isolate\n\n10. Turn it off.\n¦')
    expect(completions(open, offset)[0]?.insert).toBe('    ```yaml\n    \n    ```')
  })

  it('makes an id of the words', () => {
    const { open, offset } = openAt('## Isolate\n\n1. **Fitter:** Turn the isolator off. {#¦\n')
    expect(completions(open, offset)[0]).toMatchObject({ label: 'turn-the-isolator', insert: 'turn-the-isolator}' })
  })

  it('names who does a step', () => {
    const { open, offset } = openJob({ prose: '## Look\n\n1. **¦' })
    expect(completions(open, offset).find(({ label }) => label === 'Supervisor')?.insert).toBe('Supervisor:** ')
  })

  it('is silent in a remark and in plain words', () => {
    for (const typed of [{ step: '# a remark ¦' }, { prose: 'Plain words ¦' }]) {
      const { open, offset } = openJob(typed)
      expect(completions(open, offset)).toEqual([])
    }
  })
})
