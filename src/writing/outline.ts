import { plainText } from '../syntax/prose.ts'
import type { WrittenPhase, WrittenStep } from '../syntax/written.ts'
import type { OpenText } from './open-text.ts'

/** One line of the outline of a procedure. */
export interface OutlineEntry {
  /** The heading, or the first words of the instruction. */
  readonly name: string
  /** The number that is printed, where no repeat or refit changes it. */
  readonly detail: string
  readonly kind: 'phase' | 'branch' | 'step'
  readonly id: string | null
  readonly start: number
  readonly end: number
  /** What is selected when somebody goes there. */
  readonly nameStart: number
  readonly nameEnd: number
  readonly children: readonly OutlineEntry[]
}

const longestName = 80
const letters = 'abcdefghijklmnopqrstuvwxyz'

/** Phases with their steps and branches, in the order of the text. */
export function outline(open: OpenText): readonly OutlineEntry[] {
  const { phases } = open.written
  return phases.map((phase, index) => phaseEntry(phase, String(index + 1), phases[index + 1]?.at.start ?? endOf(open)))
}

const endOf = (open: OpenText): number => open.text.trimEnd().length

function phaseEntry(phase: WrittenPhase, number: string, end: number): OutlineEntry {
  const { branches } = phase
  const [firstBranch] = branches
  const stepsEnd = firstBranch?.at.start ?? end
  const steps = phase.steps.map((step, index) =>
    stepEntry(step, `${number}.${index + 1}`, phase.steps[index + 1]?.at.start ?? stepsEnd),
  )
  const ways = branches.map((branch, index) =>
    phaseEntry(branch, `${number}${(letters[index] ?? '').toUpperCase()}`, branches[index + 1]?.at.start ?? end),
  )
  return {
    name: shortened(phase.title),
    detail: number,
    kind: phase.level === 3 ? 'branch' : 'phase',
    id: phase.id?.id ?? null,
    start: phase.at.start,
    end: Math.max(phase.at.end, end),
    nameStart: phase.at.start,
    nameEnd: phase.at.end,
    children: [...steps, ...ways],
  }
}

function stepEntry(step: WrittenStep, number: string, end: number): OutlineEntry {
  return {
    name: shortened(plainText(step.text)),
    detail: number,
    kind: 'step',
    id: step.id?.id ?? null,
    start: step.at.start,
    end: Math.max(step.at.end, end),
    nameStart: step.at.start,
    nameEnd: step.at.end,
    children: step.steps.map((inner, index) =>
      stepEntry(
        inner,
        `${number}${letters[index] ?? ''}`,
        step.steps[index + 1]?.at.start ?? Math.max(step.at.end, end),
      ),
    ),
  }
}

function shortened(words: string): string {
  const plain = words.trim().replace(/\s+/g, ' ')
  if (plain === '') return '…'
  return plain.length <= longestName ? plain : `${plain.slice(0, longestName).replace(/ [^ ]*$/, '')} …`
}
