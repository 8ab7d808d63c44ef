import type { PhaseSheet, StepSheet } from '../../wording/step-file-parts.ts'
import { workingsOfEntry } from '../../wording/working-text.ts'
import type { EntryBlock } from './sheet-parts.ts'

type Entry = StepSheet['entries'][number]

/** Kinds where someone can be hurt: set in a heavier frame. */
const heavy = new Set([
  'lift',
  'support',
  'handle',
  'exposed',
  'hot-work',
  'permit',
  'keep',
  'prohibit',
  'emergency',
  'ramp',
])

/**
 * Keys with a layout of their own, and whether this step has something under it.
 * Anything else that an author wrote is printed as label and lines, so that nothing is dropped.
 */
const laidOutAtStep: Readonly<Record<string, (step: StepSheet) => boolean>> = {
  by: (step) => step.by.length > 0,
  where: (step) => step.where.length > 0,
  enters: (step) => step.enters.length > 0,
  clear: (step) => step.clear.length > 0,
  needs: (step) => step.needs.length > 0,
  sets: (step) => step.sets.length > 0,
  proves: (step) => step.proves.length > 0 && step.holds.length + step.readings.length > 0,
  hazards: (step) => step.hazards.length > 0,
  ppe: (step) => step.ppe.length > 0 && !saysMore(step, 'ppe', 'name', 'because'),
  uses: (step) => step.uses.length > 0,
  only: (step) => step.only !== null,
  when: (step) => step.when !== null,
  takes: (step) => step.takes !== null,
  hold: (step) => step.holds.length > 0,
  'hold-before': (step) => step.holds.some((hold) => hold.timing === 'before'),
  witness: (step) => step.holds.some((hold) => hold.kind === 'witness'),
  verify: (step) => step.holds.some((hold) => hold.kind === 'verify'),
  review: (step) => step.holds.some((hold) => hold.kind === 'review'),
  torque: (step) => step.torques.length > 0,
  measure: (step) => step.readings.some((reading) => reading.kind === 'measure'),
  check: (step) => step.readings.some((reading) => reading.kind === 'check'),
  set: (step) => step.readings.some((reading) => reading.kind === 'set'),
  derive: (step) => step.readings.some((reading) => reading.kind === 'derive'),
  count: (step) => step.readings.some((reading) => reading.kind === 'count'),
  else: (step) => step.consequences.length > 0,
  decide: (step) => step.decide !== null,
  wait: (step) => step.waits.length > 0,
  removes: (step) => step.removes.length > 0,
  refits: (step) => step.refits.length > 0,
  locks: (step) => step.locks.length > 0,
  unlocks: (step) => step.unlocks.length > 0,
  'puts-on': (step) => step.putsOn.length > 0,
  'takes-off': (step) => step.takesOff.length > 0,
  fits: (step) => step.fits.length > 0,
  snug: (step) => step.snug.length > 0,
  redo: (step) => step.redoes.length > 0,
  spoils: (step) => step.spoils.length > 0,
  // Where an extra step of a refit stands: it stands there.
  before: () => true,
  after: () => true,
}

/** Whether one of the properties that the layout has no place for stands anywhere under the key. */
function saysMore(
  { entries }: { readonly entries: readonly Entry[] },
  key: string,
  ...properties: readonly string[]
): boolean {
  const texts = entries.filter((entry) => entry.key === key).map((entry) => JSON.stringify(entry.data))
  return properties.some((property) => texts.some((text) => text.includes(`"${property}":`)))
}

const laidOutAtPhase: Readonly<Record<string, (phase: PhaseSheet) => boolean>> = {
  by: (phase) => phase.by.length > 0,
  where: (phase) => phase.where.length > 0,
  ppe: (phase) => phase.ppe.length > 0 && !saysMore(phase, 'ppe', 'name', 'because'),
  hazards: (phase) => phase.hazards.every((hazard) => phase.steps.some((step) => step.hazards.includes(hazard))),
  needs: (phase) => phase.steps.some((step) => step.needs.length > 0),
  only: (phase) => phase.only !== null,
  when: (phase) => phase.when !== null,
  together: (phase) => phase.together,
  takes: (phase) => phase.takes !== null,
  repeat: (phase) => phase.position !== null || phase.until !== null,
  // Its steps stand in the phase, written out.
  include: () => true,
  extra: () => true,
  reverse: (phase) => phase.reverseOf !== null,
}

/** Rolled up on the first pages or at the steps. */
const laidOutAtDocument = new Set([
  'roles',
  'states',
  'zones',
  'never',
  'machine',
  'tools',
  'gear',
  'parts',
  'consumables',
  'ppe',
  'hazards',
  'emergency',
  'prohibit',
])

const resourceKeys = new Set(['tools', 'gear', 'parts', 'consumables'])

/** `undone`: ids of steps that another step undoes, whose `undo` stands there as its text. */
export function stepEntries(step: StepSheet, undone: ReadonlySet<string>): readonly EntryBlock[] {
  const blocks = entryBlocks(step.entries, (key) => {
    if (key === 'undo') return undone.has(step.id) || saysMore(step, 'undo', 'by-hand', 'nothing')
    return laidOutAtStep[key]?.(step) ?? false
  })
  return blocks.map((block) => ({ ...block, worked: workingsOfEntry(step, block.key).map(({ says }) => says) }))
}

export function phaseEntries(phase: PhaseSheet): readonly EntryBlock[] {
  return entryBlocks(phase.entries, (key) => resourceKeys.has(key) || (laidOutAtPhase[key]?.(phase) ?? false))
}

export function documentEntries(entries: readonly Entry[]): readonly EntryBlock[] {
  return entryBlocks(entries, (key) => laidOutAtDocument.has(key))
}

function entryBlocks(entries: readonly Entry[], isLaidOut: (key: string) => boolean): readonly EntryBlock[] {
  return entries
    .filter((entry) => !isLaidOut(entry.key))
    .map((entry) => ({
      key: entry.key,
      label: entry.label,
      strong: heavy.has(entry.key),
      lines: entry.lines,
      worked: [],
    }))
}
