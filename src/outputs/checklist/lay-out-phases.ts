import type { StepFile } from '../../step-file/step-file.ts'
import { consequenceLines } from '../../wording/consequence-text.ts'
import { signsOfPrint } from '../../wording/formula-text.ts'
import { holdLabels } from '../../wording/hold-text.ts'
import { onlyInWords, rolesInWords, whereInWords } from '../../wording/people-text.ts'
import { type Proofs, proofsBefore } from '../../wording/proof-trail.ts'
import { nothingOpenInWords } from '../../wording/state-text.ts'
import { allSteps, type PhaseSheet } from '../../wording/step-file-parts.ts'
import { fieldName } from './field-name.ts'
import { phaseEntries } from './lay-out-entries.ts'
import { nowItems, openStates } from './lay-out-states.ts'
import { resourceName, type StepSurroundings, stepBlock } from './lay-out-steps.ts'
import { proseBlocks } from './prose-blocks.ts'
import { roughHeight } from './rough-height.ts'
import type { LeftOut, PhaseBlock } from './sheet.ts'
import type { FigureBlock, Labelled } from './sheet-parts.ts'
import type { StepBlock } from './sheet-steps.ts'

export function phaseBlocks(
  stepFile: StepFile,
  drawings: ReadonlyMap<string, readonly FigureBlock[]>,
  leftOut: ReadonlyMap<string, readonly LeftOut[]> = new Map(),
): readonly PhaseBlock[] {
  const undoing = stepFile.phases.flatMap((phase) => allSteps(phase.steps).map((step) => step.undoes))
  const around: StepSurroundings = {
    stepFile,
    labels: holdLabels(stepFile),
    proofs: proofsBefore(stepFile),
    undone: new Set(undoing.filter((id) => id !== null)),
    drawings,
  }
  return stepFile.phases.map((phase, index) => ({
    ...phaseBlock(around, phase, stepFile.phases[index + 1]),
    leftOut: leftOut.get(phase.id) ?? [],
  }))
}

function phaseBlock(
  around: StepSurroundings,
  phase: PhaseSheet,
  next: PhaseSheet | undefined,
): Omit<PhaseBlock, 'leftOut'> {
  const { stepFile } = around
  return {
    id: phase.id,
    field: fieldName('phase', phase.id),
    number: phase.number,
    title: phase.title,
    branch: phase.kind === 'branch',
    position: phase.position?.label ?? null,
    newPage: phase.kind === 'phase' && phase.position !== null,
    marks: phaseMarks(stepFile, phase),
    prose: proseBlocks(phase.prose, stepFile.figures),
    entries: phaseEntries(phase),
    now: nowItems(stepFile, phase, phase.statesBefore, around.proofs.get(phase.id)),
    steps: phase.steps.map((step) => withLength(stepBlock(around, phase, step))),
    until: untilBlock(stepFile, phase),
    dropped: (phase.reverseOf?.dropped ?? []).map((step) => ({
      label: step.number,
      text: `${step.text} (${step.because})`,
    })),
    stop: next === undefined ? null : stopLine(around, phase),
  }
}

/** In millimetres; a page has some 225 at least, and what closes a phase needs up to 60. */
const surelyShort = 130

const withLength = (step: StepBlock): StepBlock => ({ ...step, isShort: roughHeight(step) < surelyShort })

function untilBlock(stepFile: StepFile, phase: PhaseSheet): PhaseBlock['until'] {
  if (phase.until === null) return null
  const { condition, atMost, otherwise, first } = phase.until
  const start = stepFile.phases.find((other) => other.id === first)
  const head = atMost === null ? 'STILL OUT' : `STILL OUT AFTER TRY ${atMost}`
  const lines = otherwise === null ? [] : consequenceLines(stepFile, otherwise, phase.id)
  return {
    condition: signsOfPrint(condition),
    tries: atMost ?? 1,
    target: first,
    from: start === undefined || start.id === phase.id ? 'the start of this phase' : `${start.number} ${start.title}`,
    lines: lines.map((line, index) => (index === 0 ? { ...line, head } : line)),
  }
}

function phaseMarks(stepFile: StepFile, phase: PhaseSheet): readonly Labelled[] {
  const mark = (label: string, text: string | null): readonly Labelled[] =>
    text === null || text === '' ? [] : [{ label, text }]
  const refitOf = phase.reverseOf?.phases
    .map((id) => stepFile.phases.find((other) => other.id === id || other.baseId === id))
    .map((other) => (other ? `${other.number} ${other.title}` : ''))
    .join(', ')
  return [
    ...mark('only for', phase.only === null ? null : onlyInWords(phase.only)),
    ...mark('only when', phase.when && signsOfPrint(phase.when)),
    ...mark('by', rolesInWords(phase.by)),
    ...mark('place', whereInWords(stepFile, phase.where).join('; ')),
    ...mark('wear', phase.ppe.map((id) => resourceName(stepFile, id)).join(', ')),
    ...mark('takes', phase.takes),
    ...mark('order', phase.together ? 'steps may be done at the same time by different people' : null),
    ...mark('puts back', refitOf ? `${refitOf}, in reverse` : null),
  ]
}

/** What stays as it is when the shift ends here, and which proofs are taken again by whoever takes over. */
function stopLine(around: StepSurroundings, phase: PhaseSheet): PhaseBlock['stop'] {
  const { stepFile } = around
  const open = stepFile.states.filter((state) => {
    const value = phase.statesAfter[state.id]
    return value !== undefined && !state.end.includes(value)
  })
  const proofs = standingAfter(around, phase)
  const again = [...proofs.values()].filter((proof) => open.some((state) => state.id === proof.state))
  const marks = again.map((proof) => (proof.labels.length > 0 ? proof.labels.join('+') : proof.number))
  return {
    stays: openStates(stepFile, phase.statesAfter),
    nothingOpen: nothingOpenInWords(stepFile),
    provedAgain: [...new Set(marks)],
  }
}

function standingAfter(around: StepSurroundings, phase: PhaseSheet): Proofs {
  const standing = new Map(around.proofs.get(phase.id) ?? [])
  for (const step of allSteps(phase.steps)) {
    for (const change of step.sets) standing.delete(change.state)
    for (const claim of step.proves) {
      const labels = step.holds.flatMap((hold) => around.labels.get(hold.id) ?? [])
      standing.set(claim.state, {
        state: claim.state,
        values: claim.values,
        step: step.id,
        number: step.number,
        labels,
      })
    }
  }
  return standing
}
