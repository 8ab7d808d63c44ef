import type { StepFile } from '../step-file/step-file.ts'
import { branchSays } from '../wording/branch-text.ts'
import { consequenceLines } from '../wording/consequence-text.ts'
import { holdLabels } from '../wording/hold-text.ts'
import { inWords, stateInWords } from '../wording/state-text.ts'
import {
  allSteps,
  type ConsequenceSheet,
  type PhaseSheet,
  type ReadingSheet,
  type StepSheet,
} from '../wording/step-file-parts.ts'
import type { Job, JobCondition, JobConsequence, JobItem, JobOnly, JobReading, StepItem } from './job.ts'
import { proofsTaken, statesSet } from './job-proofs.ts'
import { partId, stepTicks } from './job-things.ts'
import { waitsOf } from './job-waits.ts'

/** The part of a step file that the script of the page works with. */
export function makeJob(stepFile: StepFile): Job {
  const { number, title, revision, status, variants } = stepFile.document
  const acting = new Set(stepFile.phases.flatMap((phase) => allSteps(phase.steps)).flatMap(actors))
  return {
    number,
    title,
    revision,
    status,
    digest: stepFile.digest,
    variants: variants.map(({ name, values }) => ({ name, values })),
    roles: stepFile.roles.map(({ id, who, differentFrom }) => ({ id, who, differentFrom, acts: acting.has(id) })),
    phases: stepFile.phases.map((phase) => ({
      id: phase.id,
      number: phase.number,
      title: phaseTitle(phase),
      under: phase.under,
      position: phase.position?.values[0]?.text ?? null,
    })),
    tables: stepFile.tables,
    states: stepFile.states.map((state) => ({
      id: state.id,
      words: stateInWords(state),
      position: state.position,
      start: state.start,
      end: state.end,
      implied: state.implied,
    })),
    items: stepFile.phases.flatMap((phase) => phaseItems(stepFile, phase)),
  }
}

/** Everyone who does something in a step: its own people, and those of its role bullets. */
export function actors(step: StepSheet): readonly string[] {
  return [...new Set([...step.by, ...step.acts.flatMap((act) => act.by)])]
}

export function phaseTitle(phase: PhaseSheet): string {
  return phase.position === null ? phase.title : `${phase.title} — ${phase.position.label}`
}

interface Surroundings {
  readonly within: readonly string[]
  readonly only: readonly JobOnly[]
  readonly conditions: readonly JobCondition[]
}

function phaseItems(stepFile: StepFile, phase: PhaseSheet): readonly JobItem[] {
  const around: Surroundings = {
    within: [],
    only: phase.only === null ? [] : [phase.only],
    conditions: phase.when === null ? [] : [{ id: phase.id, when: phase.when }],
  }
  const items = phase.steps.flatMap((step) => stepItems(stepFile, phase, step, around))
  if (phase.until === null) return items
  return [
    ...items,
    {
      kind: 'until',
      id: `until:${phase.id}`,
      phase: phase.id,
      number: phase.number,
      text: phase.until.condition,
      ...around,
      condition: phase.until.condition,
      atMost: phase.until.atMost,
      otherwise: phase.until.otherwise === null ? null : jobConsequence(stepFile, phase.until.otherwise, phase.id),
    },
  ]
}

/** In the order of the work: what opens the step, its sub-steps, the step itself, what is decided, what closes it. */
function stepItems(stepFile: StepFile, phase: PhaseSheet, step: StepSheet, outer: Surroundings): readonly JobItem[] {
  const around: Surroundings = {
    within: [...outer.within, step.id],
    only: step.only === null ? outer.only : [...outer.only, step.only],
    conditions: step.when === null ? outer.conditions : [...outer.conditions, { id: step.id, when: step.when }],
  }
  const labels = holdLabels(stepFile)
  const signs = (timing: 'before' | 'after'): readonly JobItem[] =>
    step.holds
      .filter((hold) => hold.timing === timing)
      .map((hold) => ({
        kind: 'sign',
        id: `sign:${hold.id}`,
        phase: phase.id,
        number: labels.get(hold.id) ?? step.number,
        text: hold.says,
        ...around,
        step: step.id,
        hold: hold.id,
        holdKind: hold.kind,
        role: hold.role,
      }))
  const own: StepItem = {
    kind: 'step',
    id: `step:${step.id}`,
    phase: phase.id,
    number: step.number,
    text: step.text.plain,
    ...around,
    step: step.id,
    by: actors(step),
    ticks: stepTicks(phase, step, (id) => nameOf(stepFile, id)),
    readings: step.readings.map((reading) => jobReading(step, reading)),
    consequences: step.consequences.map((consequence) => jobConsequence(stepFile, consequence, step.id)),
    spoils: step.spoils,
    sets: statesSet(step),
    proves: proofsTaken(stepFile, step),
    waits: waitsOf(stepFile, phase, step),
  }
  return [
    ...signs('before'),
    ...step.steps.flatMap((inner) => stepItems(stepFile, phase, inner, around)),
    own,
    ...signs('after'),
    ...decideItems(phase, step, around),
  ]
}

function decideItems(phase: PhaseSheet, step: StepSheet, around: Surroundings): readonly JobItem[] {
  if (step.decide === null) return []
  return [
    {
      kind: 'decide',
      id: `decide:${step.id}`,
      phase: phase.id,
      number: step.number,
      text: step.decide.ask,
      ...around,
      step: step.id,
      branches: step.decide.branches.map((branch) => ({
        says: branchSays(branch),
        when: branch.when,
        otherwise: branch.otherwise,
        action: branch.action,
        target: branch.target?.id ?? null,
        reason: branch.reason,
      })),
    },
  ]
}

/** The answers to tick for a check; yes and no where the author named none. */
export function answersOf(reading: ReadingSheet): Pick<JobReading, 'passes' | 'fails'> {
  const { passes, fails } = reading
  const named = passes.length > 0 || fails.length > 0
  return reading.kind === 'check' && !named ? { passes: ['Yes'], fails: ['No'] } : { passes, fails }
}

function nameOf(stepFile: StepFile, id: string): string {
  const everything = Object.values(stepFile.resources).flat()
  return everything.find((resource) => resource.id === id)?.name ?? inWords(id)
}

function jobReading(step: StepSheet, reading: ReadingSheet): JobReading {
  const { name, kind, limit, unit, expression, only } = reading
  return {
    id: partId(step, reading.id),
    name,
    words: inWords(name),
    kind,
    positions: reading.positions.length === 0 ? [null] : reading.positions,
    limit: limit === null ? null : { ...limit, inUnits: [], pair: null },
    workedLimit: reading.workedLimit ?? null,
    uncertainty: reading.uncertainty ?? null,
    unit,
    ...answersOf(reading),
    expression,
    only,
  }
}

function jobConsequence(stepFile: StepFile, consequence: ConsequenceSheet, here: string): JobConsequence {
  const { on, reading, action, targets, atMost, then } = consequence
  return {
    on,
    reading,
    action,
    targets: targets.map((target) => target.id),
    atMost,
    says: consequenceLines(stepFile, { ...consequence, then: null }, here)[0]?.text ?? '',
    then: then === null ? null : jobConsequence(stepFile, then, here),
  }
}
