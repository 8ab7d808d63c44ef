import type { WrittenPhase, WrittenProcedure, WrittenStep } from '../../syntax/written.ts'
import type { Place } from '../../text/place.ts'
import type { SourceText } from '../../text/source-text.ts'
import { blocksOf } from '../blocks.ts'
import type { NameMark } from './name-mark.ts'
import { namesInBlock } from './names-in-block.ts'
import { namesInInlines, namesInProse, roleMarks } from './names-in-prose.ts'

/** Every name of a procedure with its place, in the order of the text. */
export function collectNames(written: WrittenProcedure, source: SourceText): readonly NameMark[] {
  const marks = [
    ...namesInProse(written.prose, source),
    ...written.phases.flatMap((phase) => namesOfPhase(phase, source)),
    ...blocksOf(written).flatMap((block) => namesInBlock(block, source)),
  ]
  return settled(marks).sort((a, b) => a.at.start - b.at.start || a.at.end - b.at.end)
}

function namesOfPhase(phase: WrittenPhase, source: SourceText): readonly NameMark[] {
  return [
    ...idMark(phase.id?.at ?? null, source),
    ...namesInProse(phase.prose, source),
    ...phase.steps.flatMap((step) => namesOfStep(step, source)),
    ...phase.branches.flatMap((branch) => namesOfPhase(branch, source)),
  ]
}

export function namesOfStep(step: WrittenStep, source: SourceText): readonly NameMark[] {
  return [
    ...idMark(step.id?.at ?? null, source),
    ...roleMarks(step.roles),
    ...namesInInlines(step.text, source),
    ...step.acts.flatMap((act) => [...roleMarks(act.roles), ...namesInInlines(act.text, source)]),
    ...namesInProse(step.details, source),
    ...step.steps.flatMap((inner) => namesOfStep(inner, source)),
  ]
}

/** `{#id}`: the letters between the marks. */
function idMark(at: Place | null, source: SourceText): readonly NameMark[] {
  if (at === null) return []
  const typed = source.text.slice(at.start, at.end)
  const match = /^\{#(\s*)(.*?)\s*\}$/s.exec(typed)
  const name = match?.[2] ?? ''
  if (name === '') return []
  const start = at.start + 2 + (match?.[1]?.length ?? 0)
  return [
    {
      sort: 'step',
      name,
      at: { ...at, start, end: start + name.length },
      defines: true,
      owner: null,
      key: null,
      isInWords: false,
    },
  ]
}

/**
 * A formula says `end-play`, a torque's name stands behind `[=`: both are noted as readings first, and become what the
 * document has of that name. A name that nothing has stays a reading, so that whoever asks is told that there is none.
 */
function settled(marks: readonly NameMark[]): NameMark[] {
  const has = new Map<string, Set<string>>()
  for (const { sort, name, defines } of marks) if (defines) has.set(sort, (has.get(sort) ?? new Set()).add(name))
  const orders = ['reading', 'torque', 'state', 'variant'] as const
  return marks.map((mark) => {
    if (mark.sort !== 'reading' || mark.defines) return mark
    const sort = orders.find((candidate) => has.get(candidate)?.has(mark.name))
    return sort === undefined || sort === 'reading' ? mark : { ...mark, sort }
  })
}
