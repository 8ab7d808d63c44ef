import type { BlockPlace } from '../../syntax/fit-block-schema.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenStep } from '../../syntax/written.ts'
import type { OpenText } from '../open-text.ts'
import { lineEnd, lineStart } from './value-changes.ts'

/** Where a key of a place stands or would stand, seen from an offset. */
export interface FormPlace {
  readonly place: BlockPlace
  readonly block: WrittenBlock | null
  /** What people call it: `step “Press start”`. */
  readonly title: string
  /** Where a block would go in, and how far in. */
  readonly insertAt: number
  readonly indent: number
  /** From here to there it reaches. */
  readonly start: number
  readonly end: number
}

/** The places around an offset, the nearest first: step, phase, document. */
export function placesAround(open: OpenText, offset: number): readonly FormPlace[] {
  const { written, text } = open
  const phases = written.phases.flatMap((phase) => [phase, ...phase.branches])
  const phase = phases.filter((one) => one.at.start <= offset).at(-1)
  const places: FormPlace[] = []
  if (phase !== undefined) {
    const end = phases.find((one) => one.at.start > phase.at.start)?.at.start ?? text.length
    const steps = withSubSteps(phase.steps)
    const step = steps.filter((one) => one.at.start <= offset).at(-1)
    if (step !== undefined) {
      const stepEnd = steps.find((one) => one.at.start > step.at.start)?.at.start ?? end
      places.push(placeOfStep(text, step, stepEnd))
    }
    places.push(placeOfPhase(text, phase, end))
  }
  places.push(placeOfDocument(text, written), placeOfFront(text, written))
  return places
}

function placeOfStep(text: string, step: WrittenStep, end: number): FormPlace {
  const first = lineStart(text, step.at.start)
  const line = text.slice(first, lineEnd(text, first))
  const indent = /^\s*\d+[.)]\s+/.exec(line)?.[0].length ?? 3
  const says = step.markdown.length > 60 ? `${step.markdown.slice(0, 58)}…` : step.markdown
  return {
    place: 'step',
    block: step.block,
    title: `step “${says}”`,
    insertAt: lineEnd(text, step.at.end),
    indent,
    start: step.at.start,
    end,
  }
}

function placeOfPhase(text: string, phase: WrittenPhase, end: number): FormPlace {
  const insertAt = lineEnd(text, phase.at.start)
  return {
    place: 'phase',
    block: phase.block,
    title: `phase “${phase.title}”`,
    insertAt,
    indent: 0,
    start: phase.at.start,
    end,
  }
}

function placeOfDocument(text: string, written: WrittenProcedure): FormPlace {
  const first = written.phases[0]?.at.start ?? text.length
  return {
    place: 'document',
    block: written.block,
    title: 'the whole procedure',
    insertAt: first,
    indent: 0,
    start: 0,
    end: first,
  }
}

function placeOfFront(_text: string, written: WrittenProcedure): FormPlace {
  const block = written.frontMatter
  return {
    place: 'front-matter',
    block,
    title: 'the heading of the sheet',
    insertAt: 0,
    indent: 0,
    start: block?.at.start ?? 0,
    end: block?.at.end ?? 0,
  }
}

function withSubSteps(steps: readonly WrittenStep[]): readonly WrittenStep[] {
  return steps.flatMap((step) => [step, ...withSubSteps(step.steps)])
}

/** A block that is there and cannot be read: nothing is put in beside it. */
export function hasUnreadBlock(open: OpenText, { place, block, start, end }: FormPlace): boolean {
  if (block !== null) return false
  const part = open.text.slice(start, end)
  const own = place === 'phase' ? part.split(/^\s*\d+[.)]\s/m)[0] : part
  return place === 'front-matter' ? open.text.startsWith('---') : /^\s*(?:```|~~~)\s*(?:ya?ml)?\s*$/m.test(own ?? '')
}
