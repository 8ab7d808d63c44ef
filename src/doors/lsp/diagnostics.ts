import { type Diagnostic, type DiagnosticRelatedInformation, DiagnosticSeverity } from 'vscode-languageserver/node'
import type { Finding, Severity } from '../../findings/finding.ts'
import type { Place } from '../../text/place.ts'
import { type SourceText, sourceText } from '../../text/source-text.ts'
import { rangeIn } from './ranges.ts'

const severities: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  advice: DiagnosticSeverity.Information,
}

/** A finding as an editor shows it. */
export function diagnosticOf(
  finding: Finding,
  sources: readonly SourceText[],
  uriOf: (file: string) => string,
): Diagnostic {
  const textOf = (file: string) => sources.find(({ path }) => path === file) ?? sourceText(file, '')
  const placed = (at: Place, message: string): DiagnosticRelatedInformation => ({
    location: { uri: uriOf(at.file), range: rangeIn(textOf(at.file), at) },
    message,
  })
  const related = [
    ...(finding.related ?? []).map(({ at, message }) => placed(at, message)),
    ...(finding.story ?? []).map(({ at, text }, index) => placed(at, `${index + 1}. ${text}`)),
  ]
  return {
    range: rangeIn(textOf(finding.at.file), finding.at),
    severity: severities[finding.severity],
    code: finding.name,
    source: 'witnessmark',
    message: `${finding.message}\n${finding.advice}`,
    ...(related.length > 0 ? { relatedInformation: related } : {}),
  }
}

/** Findings told for several documents, once each. */
export function withoutTwins(findings: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>()
  return findings.filter(({ name, at, message }) => {
    const key = JSON.stringify([name, at.file, at.start, at.end, message])
    return !seen.has(key) && seen.add(key)
  })
}
