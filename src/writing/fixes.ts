import type { Finding, TextChange } from '../findings/finding.ts'

/** A change that answers a finding. */
export interface Fix {
  readonly title: string
  /** Certain to be right: may be made without looking. */
  readonly preferred: boolean
  readonly finding: Finding
  readonly changes: readonly TextChange[]
}

/** What can be changed for the findings that touch a stretch of a file, those that start nearest to it first. */
export function fixesAt(findings: readonly Finding[], file: string, start: number, end: number): readonly Fix[] {
  return findings
    .filter(({ at }) => at.file === file && at.start <= end && at.end >= start)
    .sort((a, b) => Math.abs(a.at.start - start) - Math.abs(b.at.start - start))
    .flatMap((finding) => {
      const { edit } = finding
      if (edit === undefined) return []
      return [{ title: edit.title, preferred: edit.afterLooking !== true, finding, changes: edit.changes }]
    })
}
