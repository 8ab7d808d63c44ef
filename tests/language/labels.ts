import { readInstruction } from '../../src/checks/instruction.ts'
import { wordsBuiltIn } from '../../src/library/read-words.ts'
import { textOf } from '../house/source-files.ts'

export interface LabelledStep {
  readonly step: string
  readonly verbFirst: boolean
  readonly actions: number
  readonly vague: readonly string[]
  readonly passive: boolean
  readonly condition: 'first' | 'last' | null
  readonly also?: readonly string[]
  readonly from: string
}

export const labelledSteps = (
  JSON.parse(textOf('tests/language/labelled-steps.json')) as { readonly steps: readonly LabelledStep[] }
).steps

export const readStep = ({ step }: LabelledStep) => readInstruction(step, wordsBuiltIn)
