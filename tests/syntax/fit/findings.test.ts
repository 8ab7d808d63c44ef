import { describe, expect, it } from 'vitest'
import type { BlockPlace } from '../../../src/syntax/fit-block-schema.ts'
import { schemaFaults } from '../../../src/syntax/schema-faults.ts'
import { type FittedText, fitText } from './fitting.ts'

interface WrongForm {
  readonly what: string
  readonly yaml: string
  readonly place?: BlockPlace
  readonly names: readonly string[]
  readonly at: readonly string[]
  /** What later stages still meet. */
  readonly stays?: unknown
}

const front = 'number: KRQ-1\ntitle: Idler\nrevision: A\nstatus: draft\ndate: 2026-03-02\n'

const wrongForms: readonly WrongForm[] = [
  {
    what: 'a key with a slip of the finger',
    yaml: 'torqe:\n  a: 5 N·m\nby: fitter',
    names: ['schema/unknown-key'],
    at: ['torqe'],
    stays: { by: ['fitter'] },
  },
  { what: 'a key nobody knows', yaml: 'colour: blue', names: ['schema/unknown-key'], at: ['colour'] },
  {
    what: 'a key of the front matter in a block',
    yaml: 'revision: B',
    place: 'document',
    names: ['schema/unknown-key'],
    at: ['revision'],
  },
  {
    what: 'a key of the document in a step',
    yaml: 'states:\n  power: { values: [on, off], start: on, end: off }',
    names: ['schema/misplaced-key'],
    at: ['states'],
  },
  {
    what: 'a key of a step in a phase',
    yaml: 'torque:\n  a: 5 N·m',
    place: 'phase',
    names: ['schema/misplaced-key'],
    at: ['torque'],
  },
  {
    what: 'a key of a step in the front matter',
    yaml: `${front}hold: x\n`,
    place: 'front-matter',
    names: ['schema/unknown-entry'],
    at: ['hold'],
  },
  {
    what: 'front matter without a number',
    yaml: front.slice(front.indexOf('title')),
    place: 'front-matter',
    names: ['schema/missing-entry'],
    at: ['title'],
  },
  {
    what: 'a day the wrong way round',
    yaml: front.replace('2026-03-02', '02.03.2026'),
    place: 'front-matter',
    names: ['schema/unreadable-value'],
    at: ['02.03.2026'],
  },
  {
    what: 'a status that does not exist',
    yaml: front.replace('draft', 'drafft'),
    place: 'front-matter',
    names: ['schema/unknown-choice'],
    at: ['drafft'],
  },
  {
    what: 'a word of a short form with a slip',
    yaml: 'measure:\n  gap: max 3 mm, wiht feeler-set, at left right',
    names: ['schema/unknown-word'],
    at: ['wiht feeler-set'],
    stays: { measure: { gap: { limit: 'max 3 mm', at: ['left', 'right'] } } },
  },
  {
    what: 'what is on the thread, with a slip',
    yaml: 'torque:\n  a: 250 N·m, 4 × M16 10.9, oild, star',
    names: ['schema/unknown-word'],
    at: ['oild'],
  },
  {
    what: 'a head with a slip',
    yaml: 'measure:\n  gap: mx 3 mm',
    names: ['schema/unknown-word'],
    at: ['mx 3 mm'],
  },
  {
    what: 'a piece that says nothing',
    yaml: 'derive:\n  skew: "abs(a - b), not more than three"',
    names: ['schema/unknown-word'],
    at: ['not more than three'],
  },
  {
    what: 'a word without its value',
    yaml: 'measure:\n  gap: max 3 mm, with',
    names: ['schema/empty-value'],
    at: ['with'],
  },
  { what: 'two commas', yaml: 'measure:\n  gap: max 3 mm, , at left', names: ['schema/empty-value'], at: [','] },
  {
    what: 'a comma at the end',
    yaml: 'measure:\n  gap: "max 3 mm, at left,"',
    names: ['schema/empty-value'],
    at: [','],
  },
  {
    what: 'two limits',
    yaml: 'derive:\n  skew: "abs(a - b), max 3 mm, max 4 mm"',
    names: ['schema/repeated-word'],
    at: ['max 4 mm'],
  },
  { what: 'a hold without a role', yaml: 'hold: Locks are on.', names: ['schema/wrong-shape'], at: ['Locks are on.'] },
  {
    what: 'a hold with two sentences for a role',
    yaml: 'hold:\n  supervisor: [Locks on., Nobody in.]\n  rigger: Path clear.',
    names: ['schema/wrong-shape'],
    at: ['[Locks on., Nobody in.]'],
    stays: { hold: { rigger: 'Path clear.' } },
  },
  {
    what: 'a load without its weight',
    yaml: 'lift:\n  hub: legs 2, with crane-1',
    names: ['schema/missing-entry'],
    at: ['hub'],
    stays: {},
  },
  {
    what: 'an entry of the long form with a slip',
    yaml: 'lift:\n  hub: { load: 640 kg, leg: 2 }',
    names: ['schema/unknown-entry'],
    at: ['leg'],
    stays: { lift: { hub: { load: '640 kg' } } },
  },
  {
    what: 'a choice that is none',
    yaml: 'hazards:\n  rim:\n    hazard: It bursts.\n    consequence: It kills.\n    avoid: Stay beside it.\n    severity: deadly\n    likelihood: could',
    names: ['schema/unknown-choice'],
    at: ['deadly'],
  },
  {
    what: 'half a hazard',
    yaml: 'hazards:\n  rim: { hazard: It bursts., avoid: Stay beside it. }',
    names: ['schema/missing-entry'],
    at: ['rim'],
  },
  {
    what: 'a hazard named twice',
    yaml: 'hazards: [rim, oil, rim]',
    names: ['schema/duplicate-item'],
    at: ['rim'],
    stays: { hazards: { rim: {}, oil: {} } },
  },
  {
    what: 'a role named twice',
    yaml: 'by: [fitter, second, fitter]',
    names: ['schema/duplicate-item'],
    at: ['fitter'],
    stays: { by: ['fitter', 'second'] },
  },
  {
    what: 'a state with a word of the language as its name',
    yaml: 'states:\n  limit: { values: [on, off], start: on, end: off }',
    place: 'document',
    names: ['schema/reserved-name'],
    at: ['limit'],
  },
  {
    what: 'a state with a blank in its name',
    yaml: 'states:\n  take up: { values: [slack, tight], start: tight, end: tight }',
    place: 'document',
    names: ['schema/unfit-name'],
    at: ['take up'],
  },
  {
    what: 'a state with one value',
    yaml: 'states:\n  power: { values: [on], start: on, end: on }',
    place: 'document',
    names: ['schema/wrong-shape'],
    at: ['[on]'],
  },
  {
    what: 'a number in words',
    yaml: 'else: { redo: this, at-most: three, then: stop }',
    names: ['schema/unreadable-value'],
    at: ['three'],
    stays: { else: { redo: ['this'], then: { stop: '' } } },
  },
  {
    what: 'an else that says nowhere to go',
    yaml: 'else: { at-most: 3 }',
    names: ['schema/missing-entry'],
    at: ['else'],
  },
  {
    what: 'quotes with nothing in them',
    yaml: 'hold: { supervisor: "" }',
    names: ['schema/empty-value'],
    at: ['""'],
  },
  {
    what: 'a pass without a fail',
    yaml: 'check:\n  look: { pass: good }',
    names: ['schema/missing-entry'],
    at: ['look'],
  },
  {
    what: 'a text where a map of names is wanted',
    yaml: 'sets: isolated',
    names: ['schema/wrong-shape'],
    at: ['isolated'],
  },
  { what: 'a list where a sentence is wanted', yaml: 'when: [a, b]', names: ['schema/wrong-shape'], at: ['[a, b]'] },
  {
    what: 'a branch that goes nowhere',
    yaml: 'decide:\n  ask: Which?\n  branches:\n    - { answer: left, go: a }\n    - { answer: right }',
    names: ['schema/missing-entry'],
    at: ['{ answer: right }'],
  },
  {
    what: 'a measure of nothing',
    yaml: 'measure:\n  gap: { with: feeler-set }',
    names: ['schema/missing-entry'],
    at: ['gap'],
  },
  {
    what: 'a fastener that is none',
    yaml: 'torque:\n  a: { limit: 5 N·m, fastener: four big ones }',
    names: ['schema/wrong-shape'],
    at: ['four big ones'],
  },
]

const shownOf = (form: WrongForm, fitted: FittedText) => `${form.yaml.trimEnd()}\n\n${fitted.shown}`

describe('forms that do not fit', () => {
  it.each(wrongForms)('$what', (form) => {
    const fitted = fitText(form.yaml, form.place)
    expect(fitted.names).toEqual(form.names)
    expect(fitted.pointedAt).toEqual(form.at)
    if (form.stays !== undefined) expect(fitted.value).toEqual(form.stays)
    expect(shownOf(form, fitted)).toMatchSnapshot()
  })

  it('show every kind of fault once at least', () => {
    const shown = new Set(wrongForms.flatMap(({ names }) => names))
    expect(schemaFaults.map(({ name }) => name).filter((name) => !shown.has(name))).toEqual([])
  })

  it('leave values open that a draft, a fragment or a table row will fill', () => {
    for (const typed of [
      'else: { redo: this, at-most: ??, then: stop }',
      'repeat: { until: (=done), at-most: (=tries) }',
      'check: { (=part): Clean. }',
    ])
      expect(fitText(typed).shown).toBe('')
  })

  it('says nothing twice when the reader of YAML has said it', () => {
    expect(fitText('measure:\n  gap:\nby: fitter').names).toEqual(['syntax/empty-value'])
  })
})
