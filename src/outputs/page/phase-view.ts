import { proseViews } from '../../html/prose-view.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { consequenceLines } from '../../wording/consequence-text.ts'
import { signsOfPrint } from '../../wording/formula-text.ts'
import { onlyInWords, rolesInWords, whereInWords } from '../../wording/people-text.ts'
import { type Proofs, proofInWords, proofsBefore } from '../../wording/proof-trail.ts'
import { inWords, nothingOpenInWords, stateIdInWords, stateInWords } from '../../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StateSheet } from '../../wording/step-file-parts.ts'
import { otherEntries } from './entries-view.ts'
import { resourceName } from './reading-view.ts'
import { signalViews, stepView } from './step-view.ts'
import { anchorFor, surroundings } from './surroundings.ts'

/** For `page/phase.hbs`. */
export function phaseView(stepFile: StepFile, phase: PhaseSheet) {
  const around = surroundings(stepFile, phase)
  const trail = proofsBefore(stepFile)
  const shown = new Set(phase.steps[0]?.hazards ?? [])
  return {
    id: phase.id,
    anchor: anchorFor(phase.id),
    number: phase.number,
    title: phase.title,
    position: phase.position?.label ?? '',
    branch: phase.kind === 'branch',
    facts: phaseFacts(stepFile, phase),
    now: nowLine(stepFile, phase, trail.get(phase.id) ?? new Map()),
    condition: phase.only === null ? '' : `Only for ${onlyInWords(phase.only)}`,
    when: phase.when === null ? null : { id: phase.id, says: signsOfPrint(inWords(phase.when)) },
    prose: proseViews(phase.prose, around),
    entries: otherEntries(phase.entries, 'phase'),
    // Normally they stand before the first step; a phase that has them nowhere else shows them here.
    signals: signalViews(
      stepFile,
      phase.hazards.filter((id) => !shown.has(id)),
    ),
    dropped: phase.reverseOf?.dropped.map(({ number, text, because }) => ({ number, text, because })) ?? [],
    steps: phase.steps.map((step) => stepView(stepFile, phase, step, around)),
    until: untilView(stepFile, phase),
    stopHere: stopHere(stepFile, phase, afterPhase(stepFile, phase, trail)),
  }
}

function phaseFacts(stepFile: StepFile, phase: PhaseSheet) {
  const lines: readonly (readonly [string, string])[] = [
    ['Who', phase.by.length === 0 ? '' : rolesInWords(phase.by)],
    ['Stand', whereInWords(stepFile, phase.where).join('; ')],
    ['Wear as well', phase.ppe.map((id) => resourceName(stepFile, id)).join(', ')],
    ['Takes', phase.takes ?? ''],
    ['At the same time', phase.together ? 'These steps may be done at the same time by different people.' : ''],
    [
      'Puts back',
      phase.reverseOf === null ? '' : phase.reverseOf.phases.map((id) => phaseName(stepFile, id)).join(', '),
    ],
  ]
  return lines.filter(([, text]) => text !== '').map(([name, text]) => ({ name, text }))
}

function phaseName(stepFile: StepFile, id: string): string {
  const phase = stepFile.phases.find((candidate) => candidate.id === id || candidate.baseId === id)
  return phase === undefined ? inWords(id) : `${phase.number} ${phase.title}`
}

/** States that can hurt or that must be held, and those that this phase changes; in a repeat those of its position. */
function statesOfNote(stepFile: StepFile, phase: PhaseSheet): readonly StateSheet[] {
  const positions = new Set(phase.position?.values.map(({ text }) => text) ?? [])
  const changed = new Set(allSteps(phase.steps).flatMap((step) => step.sets.map(({ state }) => state)))
  return stepFile.states.filter((state) => {
    if (state.implied) return false
    if (phase.position !== null && state.position !== null && !positions.has(state.position)) return false
    return state.energy !== null || state.safe.length > 0 || state.heldBy.length > 0 || changed.has(state.id)
  })
}

/** The equipment as it must be here, and what last proved it. */
function nowLine(stepFile: StepFile, phase: PhaseSheet, proofs: Proofs) {
  return statesOfNote(stepFile, phase).flatMap((state) => {
    const value = phase.statesBefore[state.id]
    if (value === undefined) return []
    const proof = proofs.get(state.id)
    return [
      {
        state: stateInWords(state),
        value: inWords(value),
        proof: proof?.values.includes(value) ? proofInWords(proof) : '',
        live: state.safe.length > 0 && !state.safe.includes(value),
      },
    ]
  })
}

function untilView(stepFile: StepFile, phase: PhaseSheet) {
  if (phase.until === null) return null
  const { condition, atMost, otherwise } = phase.until
  return {
    item: `until:${phase.id}`,
    condition: signsOfPrint(inWords(condition)),
    tries: atMost === null ? '' : `${atMost} tries at most, the first included.`,
    outlets:
      otherwise === null
        ? []
        : consequenceLines(stepFile, otherwise, phase.id).map(({ text, stops }) => ({
            head: 'NO TRIES LEFT',
            text,
            stops,
          })),
  }
}

function afterPhase(stepFile: StepFile, phase: PhaseSheet, trail: ReadonlyMap<string, Proofs>): Proofs {
  const next = stepFile.phases[stepFile.phases.indexOf(phase) + 1]
  return (next === undefined ? undefined : trail.get(next.id)) ?? new Map()
}

/** What is left as it is when the work pauses at the end of a phase, and what is proved again before it goes on. */
function stopHere(stepFile: StepFile, phase: PhaseSheet, proofs: Proofs) {
  const left = stepFile.states.filter((state) => {
    const value = phase.statesAfter[state.id]
    return value !== undefined && !state.end.includes(value)
  })
  const again = [...proofs.values()].filter((proof) => {
    const value = phase.statesAfter[proof.state]
    return value !== undefined && proof.values.includes(value)
  })
  return {
    nothingOpen: nothingOpenInWords(stepFile),
    stays: left.map((state) => `${stateInWords(state)} ${inWords(phase.statesAfter[state.id] ?? '')}`),
    again: again.map((proof) => ({
      says: `${stateIdInWords(stepFile, proof.state)} ${proof.values.map(inWords).join(' or ')}`,
      how: proofInWords(proof),
    })),
  }
}
