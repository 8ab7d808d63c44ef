import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { Place } from '../text/place.ts'
import { everyWrittenStep } from './every-step.ts'
import { plainWords } from './every-text.ts'
import { sentencesOf } from './sentences.ts'

/** One sentence of an instruction, or of what one of several people does in a step. */
export interface SpokenSentence {
  readonly text: string
  readonly step: Step
  readonly phase: Phase
  readonly at: Place
}

/** Every sentence that tells somebody to do something, each once however often its step is repeated. */
export function everySentence(procedure: Procedure): readonly SpokenSentence[] {
  const known = sentencesKnown.get(procedure)
  if (known !== undefined) return known
  const sentences = everyWrittenStep(procedure).flatMap(({ step, phase }) =>
    [{ text: step.text, at: step.at }, ...step.acts].flatMap(({ text, at }) =>
      sentencesOf(plainWords(text.inlines)).map((sentence) => ({ text: sentence.trim(), step, phase, at })),
    ),
  )
  sentencesKnown.set(procedure, sentences)
  return sentences
}

/** Asked for by many checks, once for each procedure. */
const sentencesKnown = new WeakMap<Procedure, readonly SpokenSentence[]>()

/** Whether a sentence opens with the condition under which the rest of it is done. */
export const opensWithCondition = (sentence: string): boolean =>
  /^(?:if|when|whenever|unless|as soon as|in case|once (?:the|it|all|both|this|that|every|each|they|you)|where|while|until|before|after|should)\b/i.test(
    sentence,
  )
