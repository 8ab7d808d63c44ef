import type { StepFile } from '../../step-file/step-file.ts'
import { placeOfAcceptance } from '../../wording/accepted-text.ts'
import { holdLabels } from '../../wording/hold-text.ts'
import { zoneInWords } from '../../wording/people-text.ts'
import { phaseTakes, shownSchedule } from '../../wording/schedule-text.ts'
import { claimsInWords, inWords, stateInWords } from '../../wording/state-text.ts'
import { allSteps } from '../../wording/step-file-parts.ts'
import { figuresOfPlan } from './drawing-files.ts'
import { fieldName } from './field-name.ts'
import { documentEntries } from './lay-out-entries.ts'
import { hazardPanel } from './lay-out-steps.ts'
import { proseBlocks } from './prose-blocks.ts'
import type { FetchItem, FetchPages, LeftOut, PlanBox } from './sheet.ts'

type Group = keyof StepFile['resources']
type Resource = StepFile['resources']['tools'][number]

export function fetchPages(stepFile: StepFile, leftOut: readonly LeftOut[] = []): FetchPages {
  const { machine } = stepFile
  return {
    purpose: proseBlocks(stepFile.purpose, stepFile.figures),
    groups: fetchGroups(stepFile),
    ppe: stepFile.resources.ppe.map((resource) => resource.name),
    unknownAtStart: stepFile.states.filter((state) => state.start === 'unknown').map(stateInWords),
    startStates: stepFile.states
      .filter((state) => !state.implied && state.start !== 'unknown')
      .map((state) => ({
        field: fieldName('start', state.id),
        label: stateInWords(state),
        text: inWords(state.start),
      })),
    people: stepFile.roles.map((role) => ({
      label: inWords(role.id),
      text: [role.who, ...role.qualifications].filter((part) => part !== '').join(' · '),
    })),
    plan: plan(stepFile),
    schedule: schedule(stepFile),
    flow: figuresOfPlan(stepFile, 'flow'),
    states: figuresOfPlan(stepFile, 'states'),
    leftOut,
    zones: stepFile.zones.map((zone) => ({
      label: zoneInWords(stepFile, zone.id),
      text: `${zone.safeWhen.length === 0 ? 'at any time' : `only when ${claimsInWords(stepFile, zone.safeWhen)}`}${zone.entry === null ? '' : `; ${inWords(zone.entry)} lets people in`}`,
    })),
    never: stepFile.never.map((rule) => `${claimsInWords(stepFile, rule.when)}: ${rule.because}`),
    prohibit: stepFile.prohibit,
    notModelled: (machine?.energies ?? [])
      .filter((energy) => energy.state === null)
      .map(
        (energy) =>
          `${inWords(energy.id)} (${[energy.kind, energy.magnitude].filter(Boolean).join(', ')}): ${energy.because ?? 'no reason given'}`,
      ),
    facts: [
      ...(machine?.masses ?? []).map((mass) => ({ label: inWords(mass.name), text: mass.text })),
      ...(machine?.notes ? [{ label: 'machine', text: machine.notes }] : []),
    ],
    tables: stepFile.tables.map((table) => ({
      title: inWords(table.id),
      head: table.columns.map(inWords),
      rows: table.rows,
    })),
    otherHazards: hazardsOfNoStep(stepFile).map(hazardPanel),
    entries: documentEntries(stepFile.entries),
    cautions: stepFile.cautions,
    accepted: stepFile.accepted.map((accepted) => ({
      finding: `${placeOfAcceptance(stepFile, accepted)}: ${[...accepted.messages, accepted.finding].join(' · ')}`,
      because: accepted.because,
      role: inWords(accepted.role),
    })),
    approvals: stepFile.document.approvals.map((approval) => ({
      role: inWords(approval.role),
      name: approval.name ?? '',
      date: approval.date ?? '',
    })),
  }
}

/** By the phase that first needs it; a later phase that needs it again is named behind it. */
function fetchGroups(stepFile: StepFile): FetchPages['groups'] {
  const kinds: readonly Group[] = ['tools', 'gear', 'parts', 'consumables']
  const all = kinds.flatMap((kind) => stepFile.resources[kind].map((resource) => ({ kind, resource })))
  const order = [...new Map(stepFile.phases.map((phase) => [phase.baseId, phase])).values()]
  const firstPhase = (resource: Resource) => phasesOf(resource)[0] ?? null
  const phasesOf = (resource: Resource) =>
    order.filter((phase) =>
      resource.usedIn.some((use) => use.phase === phase.baseId || use.phase.startsWith(`${phase.baseId}@`)),
    )
  const items = (members: typeof all): readonly FetchItem[] =>
    members.map(({ kind, resource }) =>
      fetchItem(
        kind,
        resource,
        phasesOf(resource)
          .slice(1)
          .map((phase) => phase.number),
      ),
    )
  const groups = order.map((phase) => ({
    title: `${phase.number} ${phase.title}`,
    items: items(all.filter(({ resource }) => firstPhase(resource) === phase)),
  }))
  const anyTime = {
    title: 'For the whole job',
    items: items(all.filter(({ resource }) => firstPhase(resource) === null)),
  }
  return [anyTime, ...groups].filter((group) => group.items.length > 0)
}

function fetchItem(kind: Group, resource: Resource, later: readonly string[]): FetchItem {
  const facts = resource.facts.map((fact) => `${inWords(fact.name)} ${fact.text}`)
  if (later.length > 0) facts.push(`again in ${later.join(', ')}`)
  return {
    field: fieldName('fetch', resource.id),
    name:
      resource.name + (resource.name !== inWords(resource.id) && /\d$/.test(resource.id) ? ` (${resource.id})` : ''),
    facts: facts.join(' · '),
    stock: [resource.number, resource.quantity === null ? null : `qty ${resource.quantity}`]
      .filter(Boolean)
      .join(' · '),
    blanks: blanksFor(kind, resource),
  }
}

function blanksFor(kind: Group, resource: Resource): FetchItem['blanks'] {
  if (resource.isInstrument) return 'instrument'
  if (kind === 'gear') return 'gear'
  if (kind === 'consumables') return 'lot'
  if (kind !== 'parts') return 'plain'
  return resource.replace === 'on-condition' ? 'on-condition' : resource.replace === 'always' ? 'always' : 'plain'
}

/** A repeated phase stands once a position, each branch under its phase. */
function plan(stepFile: StepFile): readonly PlanBox[] {
  const labels = holdLabels(stepFile)
  return stepFile.phases.map((phase) => {
    const steps = allSteps(phase.steps)
    return {
      number: phase.number,
      title: phase.title,
      position: phase.position?.label ?? null,
      // The box has room for one time; the whole of it heads the phase.
      takes: phaseTakes(stepFile, phase)?.replace(/ \(.*\)$/, '') ?? null,
      branch: phase.kind === 'branch',
      decides: steps.some((step) => step.decide !== null),
      holds: steps.flatMap((step) => step.holds.flatMap((hold) => labels.get(hold.id) ?? [])),
      target: phase.id,
    }
  })
}

function schedule(stepFile: StepFile): FetchPages['schedule'] {
  const shown = shownSchedule(stepFile)
  return shown && { ...shown, chart: figuresOfPlan(stepFile, 'schedule')[0] ?? null }
}

function hazardsOfNoStep(stepFile: StepFile): StepFile['hazards'] {
  const named = new Set(stepFile.phases.flatMap((phase) => allSteps(phase.steps).flatMap((step) => step.hazards)))
  return stepFile.hazards.filter((hazard) => !named.has(hazard.id))
}
