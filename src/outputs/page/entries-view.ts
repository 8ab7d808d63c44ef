import type { StepFile } from '../../step-file/step-file.ts'
import { allSteps, type PhaseSheet, type StepSheet } from '../../wording/step-file-parts.ts'
import { otherWorkings, workingsOfEntry } from '../../wording/working-text.ts'

type EntrySheet = PhaseSheet['entries'][number]

/** Keys that have a place of their own on the page. Every other key is printed as it stands. */
const laidOut = {
  document: [
    ...['roles', 'states', 'zones', 'never', 'hazards', 'tools', 'gear', 'parts', 'consumables', 'ppe'],
    ...['emergency', 'prohibit', 'machine'],
  ],
  phase: [
    'by',
    'where',
    'ppe',
    'hazards',
    'only',
    'when',
    'together',
    'takes',
    'reverse',
    'repeat',
    'include',
    'extra',
  ],
  step: [
    ...['by', 'where', 'enters', 'clear', 'needs', 'sets', 'proves', 'hazards', 'ppe', 'uses', 'only', 'when', 'takes'],
    ...['hold', 'hold-before', 'witness', 'verify', 'review', 'torque', 'measure', 'check', 'set', 'derive', 'count'],
    ...['else', 'decide', 'wait', 'removes', 'refits', 'locks', 'unlocks', 'puts-on', 'takes-off', 'fits', 'snug'],
    ...['redo', 'spoils', 'undo', 'before', 'after'],
  ],
} as const

/** What was written and has no place of its own, line by line. */
export function otherEntries(entries: readonly EntrySheet[], at: keyof typeof laidOut) {
  const known: readonly string[] = laidOut[at]
  return entries
    .filter(({ key, data }) => !known.includes(key) || saysMore(key, data))
    .map(({ label, lines }) => ({ label, lines: lines.map(({ name, text }) => ({ name: name ?? '', text })) }))
}

/** The entries of a step with what was worked out for each, and what was worked out for none of them. */
export function stepEntries(step: StepSheet) {
  const shown = step.entries.filter((entry) => otherEntries([entry], 'step').length > 0)
  return {
    entries: shown.flatMap((entry) =>
      otherEntries([entry], 'step').map((view) => ({ ...view, workings: workingsOfEntry(step, entry.key) })),
    ),
    workings: otherWorkings(
      step,
      shown.map(({ key }) => key),
    ),
  }
}

/** What the place of a key has no room for: who counts heads, why something is worn, what is swapped in a redo. */
const more: Readonly<Record<string, readonly string[]>> = {
  clear: ['by'],
  ppe: ['name', 'because'],
  redo: ['with', 'because'],
}

function saysMore(key: string, data: EntrySheet['data']): boolean {
  const text = JSON.stringify(data)
  return more[key]?.some((property) => text.includes(`"${property}":`)) ?? false
}

/** Hazards that no phase and no step names hold for the whole job: they are read at its start. */
export function hazardsOfTheWholeJob({ hazards, phases }: StepFile): readonly string[] {
  const named = new Set(
    phases.flatMap((phase) => [...phase.hazards, ...allSteps(phase.steps).flatMap((step) => step.hazards)]),
  )
  return hazards.map(({ id }) => id).filter((id) => !named.has(id))
}
