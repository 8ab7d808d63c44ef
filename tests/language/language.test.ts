import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { ReadSentence } from '../../src/checks/instruction.ts'
import { readInstruction } from '../../src/checks/instruction.ts'
import { conditionAt } from '../../src/checks/wording/condition-last.ts'
import { vagueIn } from '../../src/checks/wording/vague-word.ts'
import { wordsBuiltIn } from '../../src/library/read-words.ts'
import { textOf } from '../house/source-files.ts'

/** One step with what a careful reader says of it; the words of the labels are explained at the top of the file. */
interface LabelledStep {
  readonly step: string
  readonly verbFirst: boolean
  readonly actions: number
  readonly vague: readonly string[]
  readonly passive: boolean
  readonly condition: 'first' | 'last' | null
}

interface ReadStep {
  readonly label: LabelledStep
  readonly sentences: readonly ReadSentence[]
  readonly vague: readonly string[]
  readonly isHeldOut: boolean
}

const { steps } = JSON.parse(textOf('tests/language/labelled-steps.json')) as {
  readonly steps: readonly LabelledStep[]
}

const readSteps = steps.map(
  (label, index): ReadStep => ({
    label,
    sentences: readInstruction(label.step, wordsBuiltIn),
    vague: vagueIn(label.step, wordsBuiltIn).map(({ expression }) => expression),
    isHeldOut: index % 3 === 2,
  }),
)

const isNotVerbFirst = ({ sentences: [first] }: ReadStep): boolean =>
  first !== undefined && first.is !== 'order' && first.is !== 'unsure'
const actionsOf = ({ sentences }: ReadStep): number => sentences.flatMap(({ actions }) => actions).length

/** What is judged: whether the program says so, and whether the reader does. */
const judgements = {
  'verb not first': [isNotVerbFirst, ({ label }: ReadStep) => !label.verbFirst],
  'more than one action': [
    (read: ReadStep) => actionsOf(read) > 1,
    ({ label }: ReadStep) => label.verbFirst && label.actions > 1,
  ],
  'more than three actions': [(read: ReadStep) => actionsOf(read) > 3, ({ label }: ReadStep) => label.actions > 3],
  'vague word': [({ vague }: ReadStep) => vague.length > 0, ({ label }: ReadStep) => label.vague.length > 0],
} as const

interface Figures {
  /** Share of what is reported that a reader would report. */
  readonly precision: number
  /** Share of what a reader would report that is reported. */
  readonly recall: number
  readonly wrong: readonly string[]
}

function figuresOf(name: keyof typeof judgements, among: readonly ReadStep[]): Figures {
  const [says, isSo] = judgements[name]
  const reported = among.filter(says)
  const faulty = among.filter(isSo)
  const both = reported.filter(isSo)
  return {
    precision: both.length / reported.length,
    recall: both.length / faulty.length,
    wrong: among.filter((read) => says(read) !== isSo(read)).map(({ label }) => label.step),
  }
}

describe('300 labelled steps', () => {
  it('are 300 or more, each once, with enough faults of each kind to tell anything', () => {
    expect(steps.length).toBeGreaterThanOrEqual(300)
    expect(new Set(steps.map(({ step }) => step)).size).toBe(steps.length)
    for (const [, isSo] of Object.values(judgements)) expect(readSteps.filter(isSo).length).toBeGreaterThanOrEqual(20)
  })

  it.each(Object.keys(judgements) as (keyof typeof judgements)[])('are judged like a reader does: %s', (name) => {
    const all = figuresOf(name, readSteps)
    const heldOut = figuresOf(
      name,
      readSteps.filter(({ isHeldOut }) => isHeldOut),
    )
    const inPercent = ({ precision, recall }: Figures) =>
      `precision ${(100 * precision).toFixed(1)} %, recall ${(100 * recall).toFixed(1)} %`
    console.info(`${name}: ${inPercent(all)}; held out: ${inPercent(heldOut)}`)
    for (const { precision, recall, wrong } of [all, heldOut]) {
      expect(precision, wrong.join('\n')).toBeGreaterThanOrEqual(0.95)
      expect(recall, wrong.join('\n')).toBeGreaterThanOrEqual(0.85)
    }
  })

  it('give the number of actions in nine of ten', () => {
    const right = readSteps.filter((read) => read.label.verbFirst && actionsOf(read) === read.label.actions)
    expect(right.length / readSteps.filter(({ label }) => label.verbFirst).length).toBeGreaterThan(0.9)
  })

  it('find the conditions that come last, but for bans and for what is vague anyway', () => {
    const told = (late: boolean) =>
      readSteps
        .filter(({ label, sentences }) => {
          const isReported = sentences.some((sentence) => conditionAt(sentence, wordsBuiltIn) !== -1)
          return isReported !== (label.condition === 'last') && isReported !== late
        })
        .map(({ label }) => label.step)
    expect(told(false)).toEqual([])
    expect(told(true)).toEqual(['Adjust the belt if necessary.', 'Do not start unless the guard is not open.'])
  })

  it('find what is said in the passive among what is no order', () => {
    const missed = readSteps.filter(({ label, sentences }) => label.passive && sentences[0]?.is !== 'passive')
    expect(missed.map(({ label }) => label.step)).toEqual([])
  })
})

describe('hard words', () => {
  const first = (text: string) => readInstruction(text, wordsBuiltIn)[0]?.is
  const verbs = (text: string) =>
    readInstruction(text, wordsBuiltIn).flatMap(({ words, actions }) => actions.map((at) => words[at]?.low))

  it.each([
    'Torque-check the nuts.',
    'Hand-tighten the plug.',
    'Second: hold the brake.',
    'With the engine running, read the pressure.',
    'If it is hot, wait.',
    'Do not stand below it.',
    'Slowly lower the piston.',
    'Pump the handle.',
    'Drain the case.',
    'Jack the axle.',
    'Sling the rotor.',
    'Bolt the bracket on.',
    'Unhook.',
    'Open/close the valve twice.',
  ])('%s is an order', (text) => expect(first(text)).toBe('order'))

  it.each([
    ['Pump pressure is read.', 'passive'],
    ['Drain plug goes back.', 'statement'],
    ['Jack stands are placed.', 'passive'],
    ['Oil change.', 'no-verb'],
    ['Removal of the guard.', 'doing-as-thing'],
    ['Draining the tank takes an hour.', 'doing-as-thing'],
  ])('%s is none', (text, is) => expect(first(text)).toBe(is))

  it.each(['Spag the ring.', 'Freem both ends.', '12 bolts, then the cover.', '', '…', '???'])(
    'of "%s" nothing is said',
    (text) => expect([undefined, 'unsure']).toContain(first(text)),
  )

  it.each([
    ['Lower the axle until the stands carry it, then pin both.', ['lower', 'pin']],
    ['Tighten the bolts in turn while the second turns the hub.', ['tighten']],
    ['Press and hold the key.', ['press']],
    ['Relieve, disconnect or restrain the energy.', ['restrain'].length],
    ['Look for rust, burrs and dents.', ['look']],
    ['Bend a tang into the nut. Tighten to line it up, never loosen.', ['bend', 'tighten']],
  ])('%s', (text, expected) =>
    typeof expected === 'number' ? expect(verbs(text)).toHaveLength(expected) : expect(verbs(text)).toEqual(expected),
  )
})

describe('every verb of the list', () => {
  const verbs = [...wordsBuiltIn.verbs].filter((verb) => verb.length > 2)
  const failing = (isRight: (verb: string) => boolean) => verbs.filter((verb) => !isRight(verb))
  const is = (text: string) => readInstruction(text, wordsBuiltIn)[0]?.is
  const actions = (text: string) => readInstruction(text, wordsBuiltIn).flatMap((sentence) => sentence.actions).length
  const capital = (verb: string) => verb.charAt(0).toUpperCase() + verb.slice(1)

  it('is an order at the front, behind a ban, a condition and an adverb', () => {
    expect(failing((verb) => is(`${capital(verb)} the bracket.`) === 'order')).toEqual([])
    expect(failing((verb) => is(`Do not ${verb} the bracket.`) === 'order')).toEqual([])
    expect(failing((verb) => is(`With the belt off, ${verb} both brackets.`) === 'order')).toEqual([])
    expect(failing((verb) => is(`If the oil is hot, slowly ${verb} it.`) === 'order')).toEqual([])
  })

  it('is an action of its own behind "and" and "then", and none as the name of a thing', () => {
    expect(failing((verb) => actions(`Lift the blade and ${verb} the bracket.`) === 2)).toEqual([])
    expect(failing((verb) => actions(`Lift the blade, then ${verb} it.`) === 2)).toEqual([])
    expect(failing((verb) => actions(`Lift the ${verb} plate and the ${verb} of the frame.`) === 1)).toEqual([])
    expect(failing((verb) => actions(`Turn the screw to ${verb} the ring.`) === 1)).toEqual([])
    expect(failing((verb) => actions(`Turn the screw until the ${verb} ring is free.`) === 1)).toEqual([])
  })

  it('orders nothing in a sentence about a thing that has its name', () => {
    expect(failing((verb) => is(`The ${verb} plate must be clean.`) === 'statement')).toEqual([])
  })
})

describe('any text', () => {
  const word = fc.constantFrom(
    ...'lower the axle and then , if not until 12 mm pump is of or … ( ) : . — / it ly'.split(' '),
  )
  const text = fc.oneof(
    fc.string({ unit: 'grapheme' }),
    fc.array(word, { maxLength: 40 }).map((words) => words.join(' ')),
  )

  it('is read without breaking off, and every action is one of its words', () => {
    fc.assert(
      fc.property(text, (any) => {
        for (const { words, actions, order } of readInstruction(any, wordsBuiltIn)) {
          expect(order === -1 ? actions : actions[0]).toEqual(order === -1 ? [] : order)
          for (const at of actions) expect(words[at]).toBeDefined()
          for (const { typed } of words) expect(any).toContain(typed)
        }
        vagueIn(any, wordsBuiltIn)
      }),
    )
  })
})
