import type { StepFile } from '../step-file/step-file.ts'
import { allSteps } from './step-file-parts.ts'

/** Where a finding was accepted: `Step 3.1`, `Phase 3`, or `Whole document`. */
export function placeOfAcceptance(stepFile: StepFile, { step }: StepFile['accepted'][number]): string {
  if (step === null) return 'Whole document'
  const isNamed = ({ id, baseId }: { readonly id: string; readonly baseId: string }) =>
    id === step || baseId === step || baseId.split('/').at(-1) === step
  const phase = stepFile.phases.find(isNamed)
  if (phase !== undefined) return `Phase ${phase.number}`
  const found = stepFile.phases.flatMap((one) => allSteps(one.steps)).find(isNamed)
  return found === undefined ? step : `Step ${found.number}`
}
