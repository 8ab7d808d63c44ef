import type { PhaseSheet } from '../../wording/step-file-parts.ts'

type EntrySheet = PhaseSheet['entries'][number]

/** Keys that have a place of their own on the page. Every other key is printed as it stands. */
const laidOut = {
  document: [
    ...['roles', 'states', 'zones', 'never', 'hazards', 'tools', 'gear', 'parts', 'consumables', 'ppe'],
    ...['tables', 'emergency', 'prohibit', 'machine'],
  ],
  phase: ['by', 'where', 'ppe', 'hazards', 'only', 'when', 'together', 'takes', 'reverse', 'repeat'],
  step: [
    ...['by', 'where', 'enters', 'clear', 'needs', 'sets', 'proves', 'hazards', 'ppe', 'uses', 'only', 'when', 'takes'],
    ...['hold', 'hold-before', 'witness', 'verify', 'review', 'torque', 'measure', 'check', 'set', 'derive', 'count'],
    ...['else', 'decide', 'wait', 'removes', 'refits', 'locks', 'unlocks', 'puts-on', 'takes-off', 'fits', 'snug'],
    ...['redo', 'spoils', 'undo'],
  ],
} as const

/** What was written and has no place of its own, line by line. */
export function otherEntries(entries: readonly EntrySheet[], at: keyof typeof laidOut) {
  const known: readonly string[] = laidOut[at]
  return entries
    .filter(({ key }) => !known.includes(key))
    .map(({ label, lines }) => ({ label, lines: lines.map(({ name, text }) => ({ name: name ?? '', text })) }))
}
