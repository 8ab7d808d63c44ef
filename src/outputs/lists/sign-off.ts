import type { StepFile } from '../../step-file/step-file.ts'
import { holdLabels, holdWord } from '../../wording/hold-text.ts'
import { rolesInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StepSheet } from '../../wording/step-file-parts.ts'
import { headOf, type ListHead, type ListPaper, type ListSources, type Tidy } from './list-sheet.ts'
import { listSources } from './list-sources.ts'

/** Sheet on which a trainer signs what somebody was shown, did under observation, and did alone. */
export interface SignOff {
  readonly head: ListHead
  readonly roles: readonly { readonly role: string; readonly must: string }[]
  readonly phases: readonly {
    readonly number: string
    readonly title: string
    readonly who: string
    readonly points: readonly SignOffPoint[]
  }[]
  readonly emergency: readonly { readonly label: string; readonly text: string }[]
}

/** What in a phase cannot be left to the rest of it: where somebody could be hurt, or signs. */
export interface SignOffPoint {
  readonly number: string
  readonly text: string
  /** `lock`, `lift`, `HOLD H2` */
  readonly why: string
}

export function signOffOf(stepFile: StepFile, paper: ListPaper): SignOff {
  const phases = [...new Map(stepFile.phases.map((phase) => [phase.baseId, phase])).values()]
  return {
    head: headOf(stepFile, 'Training sign-off', paper),
    roles: stepFile.roles.map((role) => ({
      role: inWords(role.id),
      must: [role.who, ...role.qualifications].filter((part) => part !== '').join(', '),
    })),
    phases: phases.map((phase) => ({
      number: phase.number,
      title: phase.title,
      who: rolesInWords(phase.by),
      points: pointsOf(stepFile, phase),
    })),
    emergency: stepFile.emergency.map(({ name, says }) => ({ label: inWords(name), text: says })),
  }
}

export function signOffSources(sheet: SignOff, tidy: Tidy): ListSources {
  return listSources('sign-off.typ', sheet, tidy)
}

function pointsOf(stepFile: StepFile, phase: PhaseSheet): readonly SignOffPoint[] {
  return allSteps(phase.steps).flatMap((step) => {
    const why = reasons(stepFile, step)
    return why.length === 0 ? [] : [{ number: step.number, text: step.text.plain, why: why.join(', ') }]
  })
}

function reasons(stepFile: StepFile, step: StepSheet): readonly string[] {
  const labels = holdLabels(stepFile)
  const keys = new Set(step.entries.map(({ key }) => key))
  const deadly = step.hazards.filter((id) => {
    const word = stepFile.hazards.find((hazard) => hazard.id === id)?.signalWord
    return word === 'danger' || word === 'warning'
  })
  return [
    ...(step.locks.length > 0 ? ['lock on'] : []),
    ...(step.unlocks.length > 0 ? ['lock off'] : []),
    ...(keys.has('lift') ? ['lift'] : []),
    ...(keys.has('support') ? ['support'] : []),
    ...(keys.has('hot-work') ? ['hot work'] : []),
    ...(step.permits.length > 0 ? ['permit'] : []),
    ...(step.clear.length > 0 ? ['heads counted'] : []),
    ...(step.exposed.length > 0 ? ['exposed on purpose'] : []),
    ...(deadly.length > 0 ? ['warning'] : []),
    ...(step.torques.length > 0 ? ['torque'] : []),
    ...step.holds.map(({ id, kind }) => `${holdWord(kind)} ${labels.get(id) ?? ''}`.trim()),
  ]
}
