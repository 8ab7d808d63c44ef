import { type FaultKind, type Finding, found, type Severity } from '../findings/finding.ts'
import { settingRefused } from '../library/faults/faults.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { CheckConfiguration } from './check.ts'

const weight: { readonly [severity in Severity]: number } = { advice: 0, warning: 1, error: 2 }

/** Findings as seriously as the site takes them; nothing is ever made less than it is. */
export function raiseSeverity(findings: readonly Finding[], { severity }: CheckConfiguration): readonly Finding[] {
  if (severity === undefined) return findings
  return findings.map((finding) => {
    const to = severity.get(finding.name)?.to
    if (to === undefined || weight[to] <= weight[finding.severity]) return finding
    return { ...finding, severity: to, raisedFrom: finding.severity }
  })
}

/** What is wrong with the severities that a site sets: names that no finding has, and a fault made less than it is. */
export function severityFaults({ severity }: CheckConfiguration, kinds: readonly FaultKind[]): readonly Finding[] {
  const byName = new Map(kinds.map((kind) => [kind.name, kind]))
  return [...(severity ?? [])].flatMap(([name, { to, at }]) => {
    const kind = byName.get(name)
    if (kind === undefined) {
      const near = nearestName(name, new Set(byName.keys()))
      const edit = near === null ? {} : { edit: { title: `Write ${near}`, changes: [{ at, newText: near }] } }
      return [
        found(settingRefused, {
          at,
          message: `There is no finding named "${name}".`,
          advice:
            near === null
              ? 'Type the name as it is printed with the finding, like wording/sentence-too-long.'
              : `Did you mean "${near}"?`,
          ...edit,
        }),
      ]
    }
    if (weight[to] > weight[kind.severity]) return []
    const is = kind.severity === 'error' ? 'an error' : `${kind.severity} already`
    return [
      found(settingRefused, {
        at,
        message: `${name} is ${is}: ${to} makes it no more than that.`,
        advice:
          'A site may take a finding more seriously, never less. Take this line out; a single place is accepted there, with a reason.',
      }),
    ]
  })
}
