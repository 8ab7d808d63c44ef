import type { Place } from '../text/place.ts'
import type { SourceText } from '../text/source-text.ts'
import type { Finding, Severity } from './finding.ts'
import { locator } from './located.ts'

/** What `--format json` prints. New fields may come; those named here stay while `formatVersion` stays. */
export interface FindingsReport {
  readonly format: 'witnessmark-findings'
  readonly formatVersion: '1.0'
  /** Procedures looked at, in the order they were looked at. */
  readonly procedures: readonly string[]
  readonly count: { readonly [severity in Severity]: number }
  readonly findings: readonly ReportedFinding[]
}

export interface ReportedFinding extends ReportedPlace {
  /** `group/fault`. */
  readonly name: string
  readonly severity: Severity
  readonly message: string
  readonly advice: string
  readonly related: readonly (ReportedPlace & { readonly message: string })[]
  /** The shortest way that leads to it, from the start of the work; empty for faults that need no way. */
  readonly story: readonly (ReportedPlace & { readonly text: string })[]
  /** A change that is certain to be right, or null. */
  readonly edit: {
    readonly title: string
    readonly changes: readonly (ReportedPlace & { readonly newText: string })[]
  } | null
}

/** Lines and columns count from 1, columns in UTF-16 units; offsets from 0; the end is not included. Null where the file is no text. */
export interface ReportedPlace {
  readonly file: string
  readonly line: number | null
  readonly column: number | null
  readonly endLine: number | null
  readonly endColumn: number | null
  readonly startOffset: number
  readonly endOffset: number
}

/** Findings for programs, as JSON text that ends with a line end. */
export function asJson(
  findings: readonly Finding[],
  sources: readonly SourceText[],
  procedures: readonly string[],
): string {
  const locate = locator(sources)
  const reported = (at: Place): ReportedPlace => {
    const { range } = locate(at)
    return {
      file: at.file,
      line: range?.start.line ?? null,
      column: range?.start.column ?? null,
      endLine: range?.end.line ?? null,
      endColumn: range?.end.column ?? null,
      startOffset: at.start,
      endOffset: at.end,
    }
  }
  const count = (severity: Severity) => findings.filter((finding) => finding.severity === severity).length
  const report: FindingsReport = {
    format: 'witnessmark-findings',
    formatVersion: '1.0',
    procedures,
    count: { error: count('error'), warning: count('warning'), advice: count('advice') },
    findings: findings.map((finding) => ({
      name: finding.name,
      severity: finding.severity,
      ...reported(finding.at),
      message: finding.message,
      advice: finding.advice,
      related: (finding.related ?? []).map((place) => ({ ...reported(place.at), message: place.message })),
      story: (finding.story ?? []).map((place) => ({ ...reported(place.at), text: place.text })),
      edit: finding.edit
        ? {
            title: finding.edit.title,
            changes: finding.edit.changes.map((change) => ({ ...reported(change.at), newText: change.newText })),
          }
        : null,
    })),
  }
  return `${JSON.stringify(report, null, 2)}\n`
}
