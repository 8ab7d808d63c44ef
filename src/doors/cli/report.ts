import { asJson } from '../../findings/as-json.ts'
import { asSarif } from '../../findings/as-sarif.ts'
import { asText } from '../../findings/as-text.ts'
import type { Finding, Severity } from '../../findings/finding.ts'
import type { SourceText } from '../../text/source-text.ts'
import type { LookedAt } from './look-at-procedures.ts'
import { painterFor } from './painter.ts'
import type { Program } from './program.ts'
import type { Surroundings } from './surroundings.ts'

export const formats = ['text', 'json', 'sarif'] as const
export type Format = (typeof formats)[number]

/** Prints what was found: text as it comes, JSON and SARIF in one piece at the end. */
export interface Reporter {
  readonly add: (looked: LookedAt) => void
  readonly finish: () => void
}

export function reporterFor(format: Format, program: Program, surroundings: Surroundings): Reporter {
  if (format === 'text') return textReporter(surroundings)
  const all: LookedAt[] = []
  return {
    add: (looked) => all.push(looked),
    finish: () => {
      const findings = all.flatMap((looked) => looked.findings)
      const sources = eachOnce(all.flatMap((looked) => looked.sources))
      const files = all.map((looked) => looked.file)
      surroundings.print(format === 'json' ? asJson(findings, sources, files) : asSarif(findings, sources, program))
    },
  }
}

function textReporter(surroundings: Surroundings): Reporter {
  const painter = painterFor(surroundings)
  // Room for the line number and the bar beside the source line; wider than 120 is hard to read.
  const width = Math.max(40, Math.min(120, surroundings.columns ?? 108) - 8)
  // A finding may point into a procedure that was looked at before.
  const sources = new Map<string, SourceText>()
  return {
    add: (looked) => {
      for (const source of looked.sources) sources.set(source.path, source)
      if (looked.findings.length > 0)
        surroundings.print(asText(looked.findings, [...sources.values()], { painter, width }))
    },
    finish: () => {},
  }
}

function eachOnce(sources: readonly SourceText[]): readonly SourceText[] {
  return [...new Map(sources.map((source) => [source.path, source])).values()]
}

/** Whether a procedure may not be built as it stands. */
export function hasError(looked: LookedAt): boolean {
  return (
    looked.breakdown !== null ||
    looked.libraryErrors > 0 ||
    looked.findings.some((finding) => finding.severity === 'error')
  )
}

/** "1 error, 2 warnings and 1 piece of advice", or "nothing". */
export function countInWords(findings: readonly Finding[]): string {
  const words: Record<Severity, readonly [string, string]> = {
    error: ['error', 'errors'],
    warning: ['warning', 'warnings'],
    advice: ['piece of advice', 'pieces of advice'],
  }
  const parts = (Object.keys(words) as Severity[]).flatMap((severity) => {
    const count = findings.filter((finding) => finding.severity === severity).length
    return count === 0 ? [] : [`${count} ${words[severity][count === 1 ? 0 : 1]}`]
  })
  if (parts.length === 0) return 'nothing'
  return parts.length === 1 ? (parts[0] ?? '') : `${parts.slice(0, -1).join(', ')} and ${parts.at(-1)}`
}

export function procedures(count: number): string {
  return count === 1 ? '1 procedure' : `${count} procedures`
}
