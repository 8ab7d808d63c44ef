import type { TextChange } from '../findings/finding.ts'

/** A text with changes that do not overlap. */
export function withChanges(text: string, changes: readonly TextChange[]): string {
  let changed = text
  for (const { at, newText } of [...changes].sort((a, b) => b.at.start - a.at.start))
    changed = changed.slice(0, at.start) + newText + changed.slice(at.end)
  return changed
}
