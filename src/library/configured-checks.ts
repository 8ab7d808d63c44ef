import { type Finding, found, type Outcome, type Severity } from '../findings/finding.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import type { Quantity, Rational } from '../quantities/quantity-types.ts'
import { fromDecimalText } from '../quantities/rational.ts'
import { type BlockNode, valueAt } from '../syntax/block-node.ts'
import type { Place } from '../text/place.ts'
import { settingRefused } from './faults/faults.ts'

/** What the site asks of its procedures; each is missing where the site says nothing. */
export interface ConfiguredChecks {
  readonly safetyRoles?: readonly string[]
  readonly accuracyRatio?: Rational
  readonly resolutionRatio?: Rational
  readonly requiredHolds?: ReadonlyMap<string, readonly string[]>
  readonly severity?: ReadonlyMap<string, { readonly to: Severity; readonly at: Place }>
  readonly ruleSet?: string
  readonly thresholds?: { readonly fireWatch?: Quantity; readonly handLift?: Quantity }
}

/** The part of `witnessmark.yaml` that checks and acceptances rest on. */
export function configuredChecks(settings: BlockNode | undefined): Outcome<ConfiguredChecks> {
  const findings: Finding[] = []
  const typed = (key: string): string | null => scalarText(valueAt(settings, key))
  const thresholds = valueAt(settings, 'thresholds')
  const fireWatch = amount(valueAt(thresholds, 'fire-watch'), 'time', '60 min', findings)
  const handLift = amount(valueAt(thresholds, 'hand-lift'), 'mass', '25 kg', findings)
  const roles = textsIn(valueAt(settings, 'safety-roles')).map(nameOfRole)
  const accuracyRatio = ratioOf(typed('accuracy-ratio'))
  const resolutionRatio = ratioOf(typed('resolution-ratio'))
  const requiredHolds = entriesOf(valueAt(settings, 'required-holds')).map(
    ({ key, value }) => [key.trim().toLowerCase(), textsIn(value).map(nameOfRole)] as const,
  )
  const severity = entriesOf(valueAt(settings, 'severity')).flatMap(({ key, keyAt, value }) => {
    const to = scalarText(value)
    return to === 'error' || to === 'warning' ? [[key, { to, at: keyAt }] as const] : []
  })
  const ruleSet = typed('rule-set')
  const value: ConfiguredChecks = {
    ...(roles.length > 0 ? { safetyRoles: roles } : {}),
    ...(accuracyRatio ? { accuracyRatio } : {}),
    ...(resolutionRatio ? { resolutionRatio } : {}),
    ...(requiredHolds.length > 0 ? { requiredHolds: new Map(requiredHolds) } : {}),
    ...(severity.length > 0 ? { severity: new Map(severity) } : {}),
    ...(ruleSet === null ? {} : { ruleSet }),
    ...(fireWatch || handLift
      ? { thresholds: { ...(fireWatch ? { fireWatch } : {}), ...(handLift ? { handLift } : {}) } }
      : {}),
  }
  return { value, findings }
}

function amount(
  node: BlockNode | undefined,
  kind: 'time' | 'mass',
  example: string,
  findings: Finding[],
): Quantity | null {
  const text = scalarText(node)
  if (node === undefined || text === null) return null
  const read = parseQuantity(text, kind)
  if (read.ok && read.value.kind === kind) return read.value
  findings.push(
    found(settingRefused, {
      at: node.at,
      message: read.ok ? `"${text}" is no ${kind}.` : read.problem.message,
      advice: read.ok ? `Type a ${kind}, like ${example}.` : read.problem.advice,
    }),
  )
  return null
}

/** `4` and `4:1` are the same. */
function ratioOf(typed: string | null): Rational | null {
  return typed === null ? null : fromDecimalText(typed.replace(/:1$/, ''))
}

const nameOfRole = (typed: string): string => typed.trim().toLowerCase().replace(/\s+/g, '-')

const scalarText = (node: BlockNode | undefined): string | null => (node?.kind === 'scalar' ? node.text : null)

const entriesOf = (node: BlockNode | undefined) => (node?.kind === 'map' ? node.entries : [])

/** One text or a list of them. */
export function textsIn(node: BlockNode | undefined): readonly string[] {
  if (node?.kind === 'scalar') return [node.text]
  return node?.kind === 'list' ? node.items.flatMap((item) => (item.kind === 'scalar' ? [item.text] : [])) : []
}
