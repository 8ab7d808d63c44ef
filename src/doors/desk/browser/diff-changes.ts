import type { ChangeSpec } from '@codemirror/state'

/** The stretch in which two texts differ, as one change: the cursor and the marks outside of it stay where they are. */
export function diffChanges(old: string, next: string): readonly ChangeSpec[] {
  if (old === next) return []
  let start = 0
  while (start < old.length && start < next.length && old[start] === next[start]) start++
  let end = 0
  while (end < old.length - start && end < next.length - start && old.at(-1 - end) === next.at(-1 - end)) end++
  return [{ from: start, to: old.length - end, insert: next.slice(start, next.length - end) }]
}
