import { type Words, wordsBuiltIn } from '../library/read-words.ts'
import type { Procedure, Step } from '../model/procedure.ts'
import { valueAt } from '../syntax/block-node.ts'
import type { Inline } from '../syntax/prose.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'
import type { CheckSubject } from './check.ts'
import { everyWrittenStep } from './every-step.ts'
import { proseWords } from './every-text.ts'
import { type ReadSentence, readInstruction } from './instruction.ts'
import { writtenAt } from './written-words.ts'

/** What a step, or somebody acting in it, is told to do. */
export interface Instruction {
  readonly step: Step
  /** Values that the program puts in, and words as they stand on a plate or key, are `…`. */
  readonly text: string
  readonly sentences: readonly ReadSentence[]
  readonly at: Place
}

/** Something else that people read and act on, or put their name to. */
export interface Saying {
  readonly text: string
  /** `step 3.1`, `the signature of step 3.1`. */
  readonly where: string
  readonly at: Place
}

export const wordsFor = ({ configuration }: CheckSubject): Words => configuration.words ?? wordsBuiltIn

/** The words of a language can only be judged by somebody who speaks it: the checker speaks English. */
export const isEnglish = ({ document }: Procedure): boolean => /^en\b/i.test(document.language)

const read = new WeakMap<Procedure, readonly Instruction[]>()

/** Every instruction in the order of the print, each once; none where the document is not in English. */
export function everyInstruction(subject: CheckSubject): readonly Instruction[] {
  const { procedure } = subject
  if (!isEnglish(procedure)) return []
  const known = read.get(procedure) ?? instructionsOf(subject)
  read.set(procedure, known)
  return known
}

function instructionsOf(subject: CheckSubject): readonly Instruction[] {
  const words = wordsFor(subject)
  return everyWrittenStep(subject.procedure)
    .flatMap(({ step }) => {
      const at = step.undoes === null ? step.at : placeOfUndoing(subject.written, step)
      return [
        ...(at === null ? [] : [{ step, inlines: step.text.inlines, at }]),
        ...step.acts.map((act) => ({ step, inlines: act.text.inlines, at: act.at })),
      ]
    })
    .map(({ step, inlines, at }) => {
      return { step, at, ...readWith(words)(inlines) }
    })
}

/** What is said is read once for as long as it stands there. */
const readWith = oncePer((words: Words) =>
  oncePer((inlines: readonly Inline[]): Pick<Instruction, 'text' | 'sentences'> => {
    const text = spokenWords(inlines)
    return { text, sentences: readInstruction(text, words) }
  }),
)

/** Where the author wrote the sentence of a refit; null where the program did. */
function placeOfUndoing(written: WrittenProcedure, step: Step): Place | null {
  const undo = valueAt(writtenAt(written, step.at)?.block?.map, 'undo')
  return (undo && valueAt(undo, 'do')?.at) ?? null
}

/** Instructions, details of steps, questions of checks and sentences to sign, in English documents. */
export function everySaying(subject: CheckSubject): readonly Saying[] {
  if (!isEnglish(subject.procedure)) return []
  const known = sayings.get(subject.procedure) ?? sayingsOf(subject)
  sayings.set(subject.procedure, known)
  return known
}

const sayings = new WeakMap<Procedure, readonly Saying[]>()

function sayingsOf(subject: CheckSubject): readonly Saying[] {
  return [
    ...everyInstruction(subject).map(({ text, step, at }) => ({ text, where: `step ${step.number}`, at })),
    ...everyWrittenStep(subject.procedure).flatMap(({ step }) => [
      ...step.details.flatMap(proseWords).map((text) => ({ text, where: `step ${step.number}`, at: step.at })),
      ...step.readings.flatMap(({ asks, at }) =>
        asks === null ? [] : [{ text: asks, where: `the check of step ${step.number}`, at }],
      ),
      // A signature of a word or two is told apart: it says nothing at all.
      ...step.holds
        .filter(({ says }) => says.trim().split(/\s+/).length > 3)
        .map(({ says, at }) => ({ text: says, where: `the signature of step ${step.number}`, at })),
    ]),
  ]
}

/** Values and code are no words of a sentence: they stand in it as `…`. */
function spokenWords(inlines: readonly Inline[]): string {
  return inlines
    .map((inline): string => {
      if (inline.kind === 'text') return inline.text.replace(/\(=[\w-]+\)/g, '…')
      if (inline.kind === 'break') return ' '
      if (inline.kind === 'value' || inline.kind === 'code') return '…'
      return spokenWords(inline.children)
    })
    .join('')
}
