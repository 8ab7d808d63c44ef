import type { ProseBlock } from './sheet-parts.ts'
import type { HoldBand, ReadingBlock, StepBlock, TorqueBlock } from './sheet-steps.ts'

/**
 * How high a step will stand on paper at most, in millimetres: on the high side, and without setting it. What is surely
 * shorter than a page need not be measured, which is half of the time of typesetting. Where this is wrong all the same, the
 * check of the layout sees it, and everything is measured.
 */
export function roughHeight(step: StepBlock): number {
  const heights = [
    14,
    step.panels.length * 26,
    ...[...step.opening, ...step.holds].map(bandHeight),
    lines(step.runs, 60) * 7,
    step.marks.length * 6,
    step.acts.length === 0 ? 0 : 14 + Math.max(...step.acts.map((act) => lines(act.runs, 24) * 6)),
    ...step.details.map(proseHeight),
    ...step.entries.map((entry) => 8 + (lines(entry.lines, 60) + lines(entry.worked, 70)) * 6),
    step.ticks.length * 9,
    ...step.steps.map(roughHeight),
    step.waits.length * 16,
    ...step.torques.map((torque) => torqueHeight(torque, step.tries)),
    ...step.readings.map((reading) => readingHeight(reading, step.tries)),
    step.out.length === 0 ? 0 : 4 + lines(step.out, 60) * 6,
    step.decide === null ? 0 : 24 + step.decide.branches.length * 8 + lines(step.decide, 26) * 6,
    lines(step.worked, 70) * 6,
    step.after === null ? 0 : 6 + lines(step.after, 70) * 5,
  ]
  return heights.reduce((sum, height) => sum + height, 0)
}

/** Lines of so many letters that everything written in a part needs, each text beginning its own. */
function lines(part: unknown, letters: number): number {
  if (typeof part === 'string') return Math.ceil(part.length / letters)
  if (typeof part !== 'object' || part === null) return 0
  return Object.values(part).reduce((sum: number, inner) => sum + lines(inner, letters), 0)
}

const bandHeight = (band: HoldBand): number =>
  26 + lines([band.says, band.proves, band.not], 66) * 7 + band.signatures * 12 + (band.mayBeWaived ? 12 : 0)

/** A figure may take half a page. */
const proseHeight = (part: ProseBlock): number => (part.kind === 'figure' ? 130 : 4 + lines(part, 50) * 7)

function torqueHeight(torque: TorqueBlock, tries: number): number {
  const passes = tries === 1 ? lines(torque.passes, 24) * 8 : (8 + torque.passes.length * 10) * Math.ceil(tries / 4)
  return 30 + (lines(torque.facts, 50) + lines(torque.worked, 60)) * 5 + passes
}

function readingHeight(reading: ReadingBlock, tries: number): number {
  const places = Math.max(1, reading.positions.length)
  const blank = tries === 1 ? 14 : 20 * Math.ceil(Math.min(tries, 12) / 4)
  const words = lines([reading.name, reading.asks, reading.limit, reading.notes, reading.instrument], 30) * 7
  const worked = reading.kind === 'derive' ? lines(reading.arithmetic, 8) * 4 * Math.min(tries, 12) : 0
  return 12 + words * Math.ceil(tries / 4) + places * Math.max(blank, reading.answers.length * 8) + worked
}
