import { signsOfPrint } from './formula-text.ts'
import type { StepSheet } from './step-file-parts.ts'

type BranchSheet = NonNullable<StepSheet['decide']>['branches'][number]

/** When a branch is taken, in the author's words. */
export function branchSays(branch: BranchSheet): string {
  if (branch.answer !== null) return branch.answer
  if (branch.when !== null) return `If ${signsOfPrint(branch.when)}`
  return 'Otherwise'
}
