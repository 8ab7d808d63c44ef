import { stepDrawings } from '../../drawings/step-drawings.ts'
import { inlineViews, type ProseSurroundings, proseViews } from '../../html/prose-view.ts'
import { thingTicks } from '../../record/job-things.ts'
import { waitsOf } from '../../record/job-waits.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { branchSays } from '../../wording/branch-text.ts'
import { consequenceLines, targetInWords } from '../../wording/consequence-text.ts'
import { signsOfPrint } from '../../wording/formula-text.ts'
import { holdLabels, holdRule, holdWord } from '../../wording/hold-text.ts'
import { onlyInWords, rolesInWords, whereInWords, zoneInWords } from '../../wording/people-text.ts'
import { changeInWords, claimsInWords, inWords } from '../../wording/state-text.ts'
import type { HazardSheet, HoldSheet, PhaseSheet, StepSheet } from '../../wording/step-file-parts.ts'
import { worstFirst } from '../../wording/worst-first.ts'
import { stepEntries } from './entries-view.ts'
import { readingView, resourceName, torqueView } from './reading-view.ts'
import { anchorFor } from './surroundings.ts'

type BranchSheet = NonNullable<StepSheet['decide']>['branches'][number]

export type StepView = ReturnType<typeof ownView> & { readonly steps: readonly StepView[] }

/** For `page/step.hbs`. */
export function stepView(stepFile: StepFile, phase: PhaseSheet, step: StepSheet, around: ProseSurroundings): StepView {
  return {
    ...ownView(stepFile, phase, step, around),
    steps: step.steps.map((inner) => stepView(stepFile, phase, inner, around)),
  }
}

function ownView(stepFile: StepFile, phase: PhaseSheet, step: StepSheet, around: ProseSurroundings) {
  const holds = step.holds.map((hold) => holdView(stepFile, phase, hold))
  return {
    item: `step:${step.id}`,
    anchor: anchorFor(step.id),
    number: step.number,
    text: inlineViews(step.text.inlines, around),
    roles: step.by.length === 0 ? '' : rolesInWords(step.by),
    acts: step.acts.map((act) => ({ roles: rolesInWords(act.by), text: inlineViews(act.text.inlines, around) })),
    condition: step.only === null ? '' : `Only for ${onlyInWords(step.only)}`,
    when: step.when === null ? null : { id: step.id, says: signsOfPrint(inWords(step.when)) },
    signals: signalViews(stepFile, step.hazards),
    holdsBefore: holds.filter(({ timing }) => timing === 'before'),
    holdsAfter: holds.filter(({ timing }) => timing === 'after'),
    facts: stepFacts(stepFile, step),
    details: proseViews(step.details, around),
    drawings: stepDrawings(step, stepFile).map(({ title, svg }) => ({ title, svg })),
    ...stepEntries(step),
    torques: step.torques.map((torque) => torqueView(stepFile, step, torque)),
    readings: step.readings.map((reading) => readingView(stepFile, step, reading)),
    things: thingTicks(step).map(({ id, verb, thing, count }) => ({
      id,
      says: `${verb}: ${count === null ? '' : `${count} × `}${resourceName(stepFile, thing)}`,
    })),
    outlets: step.consequences.flatMap((consequence) =>
      consequenceLines(stepFile, consequence, step.id).map(({ head, text, stops }) => ({ head, text, stops })),
    ),
    waits: waitsOf(stepFile, phase, step).map(({ id, says, begins }) => ({ id, says, watch: begins === 'watch' })),
    decide: decideView(stepFile, step),
  }
}

/** The messages of these hazards, the worst first. */
export function signalViews(stepFile: StepFile, ids: readonly string[]) {
  const hazards = ids.flatMap((id) => stepFile.hazards.find((candidate) => candidate.id === id) ?? [])
  return worstFirst(hazards).map((hazard) => ({
    ...signalWords(hazard),
    hazard: hazard.hazard,
    consequence: hazard.consequence,
    avoid: hazard.avoid,
  }))
}

function signalWords({ signalWord, controls }: HazardSheet) {
  return {
    level: signalWord,
    word: signalWord.toUpperCase(),
    // ANSI Z535.6: the alert symbol belongs to injury; NOTICE is about damage only.
    alert: signalWord !== 'notice',
    controls: controls.join('; '),
  }
}

function holdView(stepFile: StepFile, phase: PhaseSheet, hold: HoldSheet) {
  const role = stepFile.roles.find(({ id }) => id === hold.role)
  const summary = stepFile.holds.find((candidate) => candidate.hold === hold.id)
  return {
    item: `sign:${hold.id}`,
    timing: hold.timing,
    kind: hold.kind,
    word: holdWord(hold.kind),
    rule: holdRule(hold.kind),
    label: holdLabels(stepFile).get(hold.id) ?? '',
    position: phase.position?.label ?? '',
    says: hold.says,
    role: inWords(hold.role),
    who: role === undefined || role.who === hold.role ? '' : role.who,
    proves: summary === undefined || hold.kind === 'review' ? '' : claimsInWords(stepFile, summary.proves),
    different: role === undefined || role.differentFrom.length === 0 ? '' : role.differentFrom.map(inWords).join(', '),
    canBeWaived: hold.kind === 'witness',
  }
}

/** What must be true, where people stand, what is worn and used: one line each, in the order of the work. */
function stepFacts(stepFile: StepFile, step: StepSheet): readonly { readonly name: string; readonly text: string }[] {
  const lines: readonly (readonly [string, string])[] = [
    ['Must be so', claimsInWords(stepFile, step.needs)],
    ['Stand', whereInWords(stepFile, step.where).join('; ')],
    ['Goes in', whereInWords(stepFile, step.enters).join('; ')],
    ['Nobody in', step.clear.map((zone) => zoneInWords(stepFile, zone)).join('; ')],
    ['Wear as well', step.ppe.map((id) => resourceName(stepFile, id)).join(', ')],
    ['Use', step.uses.map((id) => resourceName(stepFile, id)).join(', ')],
    ['Wait', step.waits.join(', ')],
    ['Takes', step.takes ?? ''],
    ['Becomes', step.sets.map((change) => changeInWords(stepFile, change)).join(', ')],
    ['Proves', step.holds.length > 0 ? '' : claimsInWords(stepFile, step.proves)],
    ['Do again', step.redoes.map((target) => targetInWords(stepFile, target)).join(', ')],
    ['No longer counts', step.spoils.map((reading) => inWords(reading.split(/[#/]/).at(-1) ?? reading)).join(', ')],
    ['Undoes', numberOf(stepFile, step.undoes)],
    ['Tries', step.tries > 1 && step.consequences.length === 0 ? `${step.tries} at most` : ''],
  ]
  return lines.filter(([, text]) => text !== '').map(([name, text]) => ({ name, text }))
}

function numberOf(stepFile: StepFile, step: string | null): string {
  if (step === null) return ''
  const find = (steps: readonly StepSheet[]): string =>
    steps.map((one) => (one.id === step ? one.number : find(one.steps))).find((number) => number !== '') ?? ''
  return stepFile.phases.map((phase) => find(phase.steps)).find((number) => number !== '') ?? ''
}

function decideView(stepFile: StepFile, step: StepSheet) {
  if (step.decide === null) return null
  return {
    item: `decide:${step.id}`,
    ask: step.decide.ask,
    branches: step.decide.branches.map((branch, index) => ({
      index,
      says: inWords(branchSays(branch)),
      goes: branchGoes(stepFile, branch),
      anchor: branch.target === null ? '' : anchorFor(branch.target.id),
      stops: branch.action === 'stop',
    })),
  }
}

function branchGoes(stepFile: StepFile, branch: BranchSheet): string {
  const reason = branch.reason === null ? '' : ` ${branch.reason}`
  if (branch.action === 'stop') return `STOP.${reason}${branchLeaves(stepFile, branch)}`
  if (branch.target === null) return `Go on with the next phase.${reason}`
  return `Go to ${targetInWords(stepFile, branch.target)}.${reason}`
}

function branchLeaves(stepFile: StepFile, branch: BranchSheet): string {
  return branch.leave.length === 0 ? '' : ` Leave as it is: ${claimsInWords(stepFile, branch.leave)}.`
}
