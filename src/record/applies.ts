import type { JobOnly } from './job.ts'
import type { JobState } from './job-state.ts'

/** Whether an `only` is met; true while the variant is not chosen yet. */
export function applies(only: JobOnly | null, state: JobState): boolean {
  if (only === null) return true
  const chosen = state.variants.get(only.variant)
  return chosen === undefined || only.values.includes(chosen)
}
