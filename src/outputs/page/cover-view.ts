import { type DocumentDrawing, documentDrawings } from '../../drawings/document-drawings.ts'
import { proseViews } from '../../html/prose-view.ts'
import { actors, phaseTitle } from '../../record/make-job.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { oncePer } from '../../text/once-per.ts'
import { placeOfAcceptance } from '../../wording/accepted-text.ts'
import { holdLabels, holdWord } from '../../wording/hold-text.ts'
import { zoneInWords } from '../../wording/people-text.ts'
import { shownProof } from '../../wording/proof-text.ts'
import { phaseTakes, shownSchedule } from '../../wording/schedule-text.ts'
import { claimsInWords, inWords, stateInWords } from '../../wording/state-text.ts'
import { allSteps } from '../../wording/step-file-parts.ts'
import { whatCanKill } from '../../wording/what-can-kill.ts'
import { hazardsOfTheWholeJob, otherEntries } from './entries-view.ts'
import { signalViews } from './step-view.ts'
import { anchorFor, surroundings } from './surroundings.ts'

/** For `page/cover.hbs`: everything to know before the first step. */
export function coverView(stepFile: StepFile) {
  const { document, machine } = stepFile
  const kill = whatCanKill(stepFile)
  return {
    number: document.number,
    revision: document.revision,
    title: document.title,
    facts: documentFacts(stepFile),
    purpose: proseViews(stepFile.purpose, surroundings(stepFile, null)),
    machine: machine?.name ?? '',
    serials: machine?.serials.join(', ') ?? '',
    emergency: stepFile.emergency.map(({ name, says }) => ({ name: inWords(name), text: says })),
    prohibit: stepFile.prohibit,
    kill: kill.lines.map((line) => ({
      ...line,
      unproved: line.proved.startsWith('nothing'),
      level: line.signalWord ?? 'place',
      word: line.signalWord === null ? 'PLACE' : line.signalWord.toUpperCase(),
    })),
    killMore: kill.more,
    holds: holdLines(stepFile),
    plan: planLines(stepFile),
    schedule: scheduleView(stepFile),
    flow: planDrawings(stepFile, 'flow'),
    stateDrawings: planDrawings(stepFile, 'states'),
    fetch: fetchGroups(stepFile),
    before: stepFile.states
      .filter((state) => !state.implied)
      .map((state) => ({ state: stateInWords(state), value: inWords(state.start) })),
    cautions: stepFile.cautions,
    never: stepFile.never.map(({ when, because }) => ({ when: claimsInWords(stepFile, when), because })),
    roles: stepFile.roles.map((role) => ({
      name: inWords(role.id),
      who: role.who === role.id ? '' : role.who,
      qualifications: role.qualifications.join(', '),
      different: role.differentFrom.map(inWords).join(', '),
    })),
    zones: stepFile.zones.map((zone) => ({
      name: zoneInWords(stepFile, zone.id),
      safeWhen: claimsInWords(stepFile, zone.safeWhen),
      entry: zone.entry === null ? '' : inWords(zone.entry),
    })),
    energies: energyLines(stepFile),
    isolationPoints: (machine?.isolationPoints ?? []).map(({ what, where }) => ({ what, where: where ?? '' })),
    masses: (machine?.masses ?? []).map(({ name, text }) => ({ name: inWords(name), text })),
    notes: machine?.notes ?? '',
    tables: stepFile.tables.map(({ id, columns, rows }) => ({ name: inWords(id), columns, rows })),
    entries: otherEntries(stepFile.entries, 'document'),
    signals: signalViews(stepFile, hazardsOfTheWholeJob(stepFile)),
    accepted: stepFile.accepted.map((accepted) => ({
      where: placeOfAcceptance(stepFile, accepted),
      finding: accepted.finding,
      messages: accepted.messages.join(' '),
      because: accepted.because,
      role: inWords(accepted.role),
    })),
    proof: shownProof(stepFile),
    people: peopleFields(stepFile),
    variants: document.variants.map(({ name, values }) => ({
      name,
      words: inWords(name),
      values: values.map((value) => ({ name, value, words: inWords(value) })),
    })),
  }
}

function documentFacts({ document, digest }: StepFile) {
  const approvals = document.approvals.map(({ role, name, date }) =>
    [inWords(role), name ?? '', date ?? ''].filter(Boolean).join(' '),
  )
  const lines: readonly (readonly [string, string])[] = [
    ['Status', inWords(document.status)],
    ['Date', document.date],
    ['Site', document.site ?? ''],
    ['Author', document.author ?? ''],
    ['Supersedes', document.supersedes ?? ''],
    ['Review by', document.reviewBy ?? ''],
    ['Approved', approvals.join('; ')],
    ['Digest', shortDigest(digest)],
  ]
  return lines.filter(([, text]) => text !== '').map(([name, text]) => ({ name, text }))
}

/** `3f9a-12c7`: enough to tell two copies apart by eye; the record names the whole of it. */
export function shortDigest(digest: string): string {
  const hex = digest.replace(/^sha256:/, '')
  return `${hex.slice(0, 4)}-${hex.slice(4, 8)}`
}

function holdLines(stepFile: StepFile) {
  const labels = holdLabels(stepFile)
  return stepFile.holds.map((hold) => ({
    item: `sign:${hold.hold}`,
    label: labels.get(hold.hold) ?? '',
    word: holdWord(hold.kind),
    number: hold.number,
    position: hold.position ?? '',
    anchor: anchorFor(hold.step),
    says: hold.says,
    role: inWords(hold.role),
  }))
}

function planLines(stepFile: StepFile) {
  return stepFile.phases.map((phase) => ({
    id: phase.id,
    number: phase.number,
    title: phaseTitle(phase),
    anchor: anchorFor(phase.id),
    branch: phase.kind === 'branch',
    takes: phaseTakes(stepFile, phase) ?? '',
    holds: allSteps(phase.steps)
      .flatMap(({ holds }) => holds.map(({ id }) => holdLabels(stepFile).get(id) ?? ''))
      .join(' '),
  }))
}

function scheduleView(stepFile: StepFile) {
  const shown = shownSchedule(stepFile)
  return shown === null ? null : { ...shown, chart: planDrawings(stepFile, 'schedule')[0] ?? null }
}

const drawnPlan = oncePer(documentDrawings)

function planDrawings(stepFile: StepFile, of: DocumentDrawing['of']) {
  return drawnPlan(stepFile)
    .filter((drawing) => drawing.of === of)
    .map(({ title, svg }) => ({ title, svg }))
}

const groupWords = { tools: 'Tools', gear: 'Gear', parts: 'Parts', consumables: 'Consumables', ppe: 'To wear' } as const

function fetchGroups(stepFile: StepFile) {
  return Object.entries(groupWords).flatMap(([group, title]) => {
    const resources = stepFile.resources[group as keyof typeof groupWords]
    if (resources.length === 0) return []
    return [
      {
        title,
        items: resources.map((resource) => ({
          tick: `fetch:${group}:${resource.id}`,
          name: [resource.quantity === null ? '' : `${resource.quantity} ×`, resource.name].filter(Boolean).join(' '),
          facts: [
            resource.number ?? '',
            ...resource.facts.map(({ name, text }) => `${inWords(name)} ${text}`),
            resource.replace === null ? '' : `replace ${inWords(resource.replace)}`,
          ]
            .filter(Boolean)
            .join(', '),
          phases: usedIn(stepFile, resource.usedIn),
          // An instrument is written down by its own number, so that its calibration can be traced.
          instrument: resource.isInstrument
            ? { key: `instrument:${resource.id}`, label: `${resource.name}: its number, calibration due` }
            : null,
          // What stays in the machine is traced by lot or serial number (21 CFR 211.188(b)(3)).
          lot:
            group === 'parts' || group === 'consumables'
              ? { key: `${group}:${resource.id}`, label: `${resource.name}: lot or serial number` }
              : null,
        })),
      },
    ]
  })
}

function usedIn(stepFile: StepFile, uses: StepFile['resources']['tools'][number]['usedIn']): string {
  const numbers = uses.map((use) => stepFile.phases.find(({ id }) => id === use.phase)?.number ?? '')
  return [...new Set(numbers)].filter(Boolean).join(', ')
}

function energyLines(stepFile: StepFile) {
  return (stepFile.machine?.energies ?? []).map((energy) => ({
    what: [inWords(energy.id), inWords(energy.kind), energy.magnitude ?? ''].filter(Boolean).join(', '),
    how:
      energy.state === null
        ? `Not dealt with here: ${energy.because ?? 'no reason given'}`
        : `Followed as “${inWords(energy.state)}”`,
  }))
}

/** Who signs in for this run: those who do steps, whose names are asked for before the first one, then those who only sign. */
function peopleFields(stepFile: StepFile) {
  const acting = new Set(stepFile.phases.flatMap((phase) => allSteps(phase.steps)).flatMap(actors))
  const roles = stepFile.roles.map((role) => ({
    id: role.id,
    name: inWords(role.id),
    who: role.who === role.id ? '' : role.who,
    acts: acting.has(role.id),
  }))
  return [
    { title: 'Who does the work', people: roles.filter(({ acts }) => acts) },
    { title: 'Who signs or stands by (can sign in later)', people: roles.filter(({ acts }) => !acts) },
  ].filter(({ people }) => people.length > 0)
}
