import type { StepFile } from '../step-file/step-file.ts'
import type { HoldSheet } from './step-file-parts.ts'

/** The word on the band. */
export function holdWord(kind: HoldSheet['kind']): string {
  return { hold: 'HOLD', witness: 'WITNESS', verify: 'VERIFY', review: 'REVIEW' }[kind]
}

/** What the band asks of everyone, one sentence. */
export function holdRule(kind: HoldSheet['kind']): string {
  return {
    hold: 'Stop. Nobody goes on until this is signed.',
    witness: 'Call the witness and wait. If it is waived, it proves nothing.',
    verify: 'A second person looks for himself or herself, then signs.',
    review: 'The record is read, then signed.',
  }[kind]
}

/** `H1`, `H2` … by hold id, in the order of the job; every kind of hold counts. */
export function holdLabels(stepFile: StepFile): ReadonlyMap<string, string> {
  return new Map(stepFile.holds.map((hold, index) => [hold.hold, `H${index + 1}`]))
}
