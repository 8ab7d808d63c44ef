import type { Procedure, Step } from '../model/procedure.ts'
import { everyStep, stepsBelow } from './every-step.ts'
import { wordingOf } from './every-text.ts'

/** What a step says in words: instruction, details, what is asked, what is signed. Without its sub-steps. */
export function wordsOfStep(step: Step): string {
  const known = wordsKnown.get(step)
  if (known !== undefined) return known
  const words = [
    ...wordingOf(step).map(({ text }) => text),
    ...step.readings.flatMap(({ name, asks }) => [name, asks ?? '']),
    ...step.holds.map(({ says }) => says),
    ...step.keeps.map(({ name, says }) => `${name} ${says ?? ''}`),
  ].join('\n')
  wordsKnown.set(step, words)
  return words
}

/** The same with everything below it. */
export function wordsOfStepAndBelow(step: Step): string {
  return [step, ...stepsBelow(step.steps)].map(wordsOfStep).join('\n')
}

/** What all steps of the job say, one after the other. */
export function wordsOfJob(procedure: Procedure): string {
  const known = jobsKnown.get(procedure)
  if (known !== undefined) return known
  const words = [
    ...everyStep(procedure).map(({ step }) => wordsOfStep(step)),
    ...procedure.phases.flatMap(({ keeps }) => keeps.map(({ name, says }) => `${name} ${says ?? ''}`)),
  ].join('\n')
  jobsKnown.set(procedure, words)
  return words
}

/** Asked for by many checks, once for each procedure. */
const wordsKnown = new WeakMap<Step, string>()
const jobsKnown = new WeakMap<Procedure, string>()
