import type { StepFile } from '../../step-file/step-file.ts'
import { consequenceLines, targetInWords } from '../../wording/consequence-text.ts'
import { signsOfPrint } from '../../wording/formula-text.ts'
import { holdRule, holdWord } from '../../wording/hold-text.ts'
import { namesItsPeople, onlyInWords, rolesInWords, whereInWords, zoneInShort } from '../../wording/people-text.ts'
import type { Proofs } from '../../wording/proof-trail.ts'
import { changeInWords, claimsInWords, inWords } from '../../wording/state-text.ts'
import type { CountedSheet, HazardSheet, PhaseSheet, StepSheet } from '../../wording/step-file-parts.ts'
import { otherWorkings } from '../../wording/working-text.ts'
import { worstFirst } from '../../wording/worst-first.ts'
import { fieldName } from './field-name.ts'
import { stepEntries } from './lay-out-entries.ts'
import { foundAt, readingBlock, torqueBlock } from './lay-out-readings.ts'
import { nowInShort } from './lay-out-states.ts'
import { proseBlocks, runsOf } from './prose-blocks.ts'
import type { FigureBlock, Labelled } from './sheet-parts.ts'
import type { HoldBand, Panel, StepBlock } from './sheet-steps.ts'

/** What every step of one document is laid out with. */
export interface StepSurroundings {
  readonly stepFile: StepFile
  readonly labels: ReadonlyMap<string, string>
  readonly proofs: ReadonlyMap<string, Proofs>
  /** Ids of steps whose `undo` another step carries out. */
  readonly undone: ReadonlySet<string>
  readonly drawings: ReadonlyMap<string, readonly FigureBlock[]>
}

export function stepBlock(
  around: StepSurroundings,
  phase: PhaseSheet,
  step: StepSheet,
  parentBy = phase.by,
): StepBlock {
  const { stepFile } = around
  const hazards = worstFirst(step.hazards.flatMap((id) => stepFile.hazards.find((hazard) => hazard.id === id) ?? []))
  const bands = holdBands(around, step)
  const entries = stepEntries(step, around.undone)
  return {
    id: step.id,
    field: fieldName('step', step.id),
    number: step.number,
    isShort: false,
    tries: step.tries,
    tag: namesItsPeople(step, parentBy) ? rolesInWords(step.by) : null,
    now: nowInShort(stepFile, phase, step.statesBefore, around.proofs.get(step.id)),
    panels: hazards.map(hazardPanel),
    opening: bands.before,
    marks: stepMarks(stepFile, step),
    runs: runsOf(step.text.inlines),
    acts: step.acts.map((act) => ({ by: rolesInWords(act.by), runs: runsOf(act.text.inlines) })),
    details: [...proseBlocks(step.details, stepFile.figures), ...(around.drawings.get(step.id) ?? [])],
    entries,
    ticks: stepTicks(step),
    steps: step.steps.map((inner) => stepBlock(around, phase, inner, step.by)),
    waits: step.waits.map((text) => ({ text, withDate: /\b(h|d|hours?|days?)\b/.test(text) })),
    torques: step.torques.map((torque) => torqueBlock(stepFile, step, torque)),
    readings: step.readings.map((reading) => readingBlock(stepFile, step, reading, foundAt(step) ?? foundAt(phase))),
    out: step.consequences.flatMap((consequence) => consequenceLines(stepFile, consequence, step.id)),
    decide: step.decide === null ? null : decision(stepFile, step.decide),
    worked: otherWorkings(
      step,
      entries.map(({ key }) => key),
    ).map(({ says }) => says),
    after: step.sets.length === 0 ? null : step.sets.map((change) => changeInWords(stepFile, change)).join(', '),
    holds: bands.after,
  }
}

export function hazardPanel(hazard: HazardSheet): Panel {
  return {
    signal: hazard.signalWord,
    word: hazard.signalWord.toUpperCase(),
    hazard: hazard.hazard,
    consequence: hazard.consequence,
    avoid: hazard.avoid,
    controls: hazard.controls,
  }
}

function stepMarks(stepFile: StepFile, step: StepSheet): readonly Labelled[] {
  const zones = (ids: readonly string[]) => ids.map((zone) => zoneInShort(stepFile, zone)).join('; ')
  const mark = (label: string, text: string | null): readonly Labelled[] =>
    text === null || text === '' ? [] : [{ label, text }]
  return [
    ...mark('only for', step.only === null ? null : onlyInWords(step.only)),
    ...mark('only when', step.when && signsOfPrint(step.when)),
    ...mark('needs', claimsInWords(stepFile, step.needs)),
    ...mark('keep clear', zones(step.clear) + countedBy(step.clearedBy)),
    ...mark('place', whereInWords(stepFile, step.where, zoneInShort).join('; ')),
    ...mark('for this step only, into', whereInWords(stepFile, step.enters, zoneInShort).join('; ')),
    ...mark('wear', step.ppe.map((id) => resourceName(stepFile, id)).join(', ')),
    ...mark('use', step.uses.map((id) => resourceName(stepFile, id)).join(', ')),
    ...mark('takes', step.takes),
    ...mark('puts back', step.undoes === null ? null : numberOf(stepFile, step.undoes)),
    ...mark('do again', step.redoes.map((target) => targetInWords(stepFile, target)).join(', ')),
    ...mark('no longer counts', step.spoils.map(inWords).join(', ')),
  ]
}

const countedBy = (roles: readonly string[]): string =>
  roles.length === 0 ? '' : `, heads counted by the ${rolesInWords(roles)}`

export function resourceName(stepFile: StepFile, id: string): string {
  const found = Object.values(stepFile.resources)
    .flat()
    .find((resource) => resource.id === id)
  return found?.name ?? inWords(id)
}

/** `step 3.4`, with the side where phases repeat. */
function numberOf(stepFile: StepFile, id: string): string {
  for (const phase of stepFile.phases) {
    const found = phase.steps.find((step) => step.id === id)
    if (found) return `step ${found.number}${phase.position ? ` ${phase.position.label}` : ''}`
  }
  return id
}

function stepTicks(step: StepSheet): StepBlock['ticks'] {
  const lines = (verb: string, things: readonly CountedSheet[], blank = 'counted') =>
    things.map((thing) => ({ verb, count: thing.count ?? '', what: inWords(thing.id), blank }))
  return [
    ...lines('Lock on', step.locks, 'lock no'),
    ...lines('Put on', step.putsOn),
    ...lines('Taken off', step.removes),
    ...lines('New part in', step.fits),
    ...lines('Back on', step.refits),
    ...lines('Snug only, not yet tight', step.snug),
    ...lines('Took away again', step.takesOff),
    ...lines('Lock off', step.unlocks, 'lock no'),
  ]
}

function decision(stepFile: StepFile, decide: NonNullable<StepSheet['decide']>): StepBlock['decide'] {
  return {
    ask: decide.ask,
    branches: decide.branches.map((branch) => ({
      answer: branch.answer ?? (branch.when === null ? 'Anything else' : signsOfPrint(branch.when)),
      way: wayOf(stepFile, branch),
      stops: branch.action === 'stop',
      targets: branch.target === null ? [] : [branch.target.id],
    })),
  }
}

function wayOf(stepFile: StepFile, branch: NonNullable<StepSheet['decide']>['branches'][number]): string {
  const because = branch.reason === null ? '' : ` ${branch.reason}`
  const leave = branch.leave.length === 0 ? '' : ` Leave as it is: ${claimsInWords(stepFile, branch.leave)}.`
  if (branch.action === 'stop') return `STOP.${because}${leave}`
  if (branch.target === null) return `Go on with the next phase.${because}`
  return `Go to ${targetInWords(stepFile, branch.target)}.${because}`
}

function holdBands(
  around: StepSurroundings,
  step: StepSheet,
): { before: readonly HoldBand[]; after: readonly HoldBand[] } {
  const { stepFile, labels } = around
  const proves = step.proves.length === 0 ? null : claimsInWords(stepFile, step.proves)
  const last = step.holds.at(-1)
  const band = (hold: StepSheet['holds'][number]): HoldBand => {
    const role = stepFile.roles.find((candidate) => candidate.id === hold.role)
    return {
      field: fieldName('hold', hold.id),
      label: labels.get(hold.id) ?? '',
      word: holdWord(hold.kind),
      opens: hold.timing === 'before' ? step.number : null,
      rule: holdRule(hold.kind),
      role: inWords(hold.role),
      not: role && role.differentFrom.length > 0 ? role.differentFrom.map(inWords).join(', ') : null,
      says: hold.says,
      proves: hold === last ? proves : null,
      mayBeWaived: hold.kind === 'witness',
      signatures: Math.min(step.tries, 4),
    }
  }
  return {
    before: step.holds.filter((hold) => hold.timing === 'before').map(band),
    after: step.holds.filter((hold) => hold.timing === 'after').map(band),
  }
}
