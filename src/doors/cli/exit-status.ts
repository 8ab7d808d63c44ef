/** 2 for wrong use, 1 for an error in a procedure or an output that could not be made, 0 for neither. */
export function exitStatus(outcome: { readonly wrongUse: boolean; readonly failed: boolean }): number {
  if (outcome.wrongUse) return 2
  return outcome.failed ? 1 : 0
}
