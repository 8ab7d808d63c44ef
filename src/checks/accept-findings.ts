import { type Finding, found } from '../findings/finding.ts'
import type { Acceptance, Procedure } from '../model/procedure.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { CheckConfiguration } from './check.ts'
import { everyStep } from './every-step.ts'
import { acceptanceRefused, acceptanceUnused } from './frame-kinds.ts'
import { inOrderOfText } from './run-checks.ts'

/** An acceptance with what it accepted, for the step file and the audit. */
export interface UsedAcceptance {
  readonly acceptance: Acceptance
  readonly messages: readonly string[]
}

export interface AcceptedFindings {
  /** What still stands, with the faults of the acceptances themselves. */
  readonly findings: readonly Finding[]
  readonly accepted: readonly UsedAcceptance[]
}

/** Groups whose errors are about what can hurt people; a safety officer may take one on, nobody else. */
const safetyGroups = ['flow', 'lockout', 'lifting', 'hot-work', 'confined-space', 'hazards']

/**
 * Takes accepted findings out of the list. Warnings and advice: whoever the document names. Errors of the safety
 * groups, and what the site made an error: only a safety role. All other errors mean that the document is wrong.
 */
export function acceptFindings(
  procedure: Procedure,
  findings: readonly Finding[],
  configuration: CheckConfiguration,
): AcceptedFindings {
  const stepOf = stepFinder(procedure)
  const taken = new Set<Finding>()
  const accepted: UsedAcceptance[] = []
  const faults: Finding[] = []
  for (const acceptance of procedure.accepted) {
    const named = findings.filter(
      (finding) => finding.name === acceptance.finding && standsIn(acceptance.step, stepOf(finding)),
    )
    if (named.length === 0) {
      faults.push(unused(acceptance, findings))
      continue
    }
    const refused = named.find((finding) => !mayAccept(finding, acceptance, procedure, configuration))
    if (refused) {
      faults.push(refusal(acceptance, refused, configuration))
      continue
    }
    for (const finding of named) taken.add(finding)
    accepted.push({ acceptance, messages: [...new Set(named.map((finding) => finding.message))] })
  }
  const standing = findings.filter((finding) => !taken.has(finding))
  return { findings: [...standing, ...faults].sort(inOrderOfText), accepted }
}

function mayAccept(
  finding: Finding,
  acceptance: Acceptance,
  procedure: Procedure,
  configuration: CheckConfiguration,
): boolean {
  if (finding.severity !== 'error') return true
  return isForSafety(finding) && isSafetyRole(acceptance.role, procedure, configuration)
}

const isForSafety = ({ name, raisedFrom }: Finding): boolean =>
  raisedFrom !== undefined || safetyGroups.includes(name.split('/')[0] ?? '')

function isSafetyRole(id: string, procedure: Procedure, configuration: CheckConfiguration): boolean {
  if (safetyRolesOf(configuration).includes(id)) return true
  // A site that names its safety roles means those and no other.
  if (configuration.safetyRoles !== undefined) return false
  const who = procedure.roles.find((role) => role.id === id)?.who ?? ''
  return /\bsafety officer\b/i.test(who)
}

const safetyRolesOf = (configuration: CheckConfiguration): readonly string[] =>
  configuration.safetyRoles ?? ['safety-officer']

function refusal(acceptance: Acceptance, finding: Finding, configuration: CheckConfiguration): Finding {
  if (!isForSafety(finding))
    return found(acceptanceRefused, {
      at: acceptance.at,
      message: `${finding.name} is an error of the document and cannot be accepted.`,
      advice: 'Put the text right and take this acceptance out.',
      related: [{ at: finding.at, message: finding.message }],
    })
  const roles = safetyRolesOf(configuration)
  return found(acceptanceRefused, {
    at: acceptance.at,
    message:
      finding.raisedFrom === undefined
        ? `${finding.name} can hurt someone, and "${acceptance.role}" may not accept it.`
        : `${finding.name} is an error on this site, and "${acceptance.role}" may not accept it.`,
    advice: `Put the text right, or have it accepted by the safety officer: role: ${roles[0] ?? 'safety-officer'}`,
    related: [{ at: finding.at, message: finding.message }],
  })
}

function unused(acceptance: Acceptance, findings: readonly Finding[]): Finding {
  const where = acceptance.step === null ? 'in this document' : `in step "${acceptance.step}"`
  const elsewhere = findings.some((finding) => finding.name === acceptance.finding)
  const near = elsewhere ? null : nearestName(acceptance.finding, new Set(findings.map((finding) => finding.name)))
  const advice = elsewhere
    ? 'It is found in another step. Name that step, or leave `step` out.'
    : near
      ? `Did you mean "${near}"?`
      : 'Take the acceptance out, or it will hide the next fault of this kind.'
  return found(acceptanceUnused, {
    at: acceptance.at,
    message: `"${acceptance.finding}" is accepted, but nothing of that name is found ${where}.`,
    advice,
  })
}

/** Ids by which an author may name the step or phase that a finding stands in. */
type Whereabouts = ReadonlySet<string>

function standsIn(step: string | null, ids: Whereabouts): boolean {
  return step === null || ids.has(step)
}

/**
 * Finds the step of a finding by place: from a step's number up to the next step or phase all belongs to it.
 *
 *     ## Phase        ← phase
 *     1. Step one     ← phase, step one
 *        ```yaml      ← phase, step one
 *     2. Step two     ← phase, step two
 */
function stepFinder(procedure: Procedure): (finding: Finding) => Whereabouts {
  const starts = [
    ...procedure.phases.map((phase) => ({ at: phase.at, ids: [phase.id, phase.baseId] })),
    ...everyStep(procedure).map(({ step, phase }) => ({
      at: step.at,
      ids: [step.id, step.baseId, step.baseId.split('/').at(-1) ?? '', phase.id, phase.baseId],
    })),
  ]
  return ({ at }) => {
    const before = starts.filter((start) => start.at.file === at.file && start.at.start <= at.start)
    const last = before.reduce((latest, start) => Math.max(latest, start.at.start), -1)
    return new Set(before.filter((start) => start.at.start === last).flatMap((start) => start.ids))
  }
}
