import type { Finding } from '../../../findings/finding.ts'
import { locator } from '../../../findings/located.ts'
import type { Phase, Procedure, Step } from '../../../model/procedure.ts'
import { anchorFor } from '../../../outputs/page/surroundings.ts'
import type { Place } from '../../../text/place.ts'
import type { CheckAnswer, ShownEdit, ShownFinding, ShownPlace, StepMark } from '../wire.ts'
import type { Looked } from './workplace.ts'

/** What the page shows after a look at a procedure. */
export function checkAnswer(file: string, looked: Looked, version: number): CheckAnswer {
  const { compiled, library } = looked
  const { procedure } = compiled
  const shown = placeShower(file, looked)
  const findings = [...library.findings, ...compiled.findings].map((finding) => shownFinding(finding, file, shown))
  return {
    version,
    findings,
    steps: procedure === null ? [] : stepMarks(procedure, looked.text.length),
    page: pageReadiness(procedure, findings),
    proved: compiled.flow?.properties.map(({ says }) => says) ?? [],
    title: procedure?.document.title ?? '',
    took: Math.round(looked.took * 10) / 10,
  }
}

/** Told by the findings alone: the step file is made when the page is asked for, after the findings are on the screen. */
function pageReadiness(procedure: Procedure | null, findings: readonly ShownFinding[]): CheckAnswer['page'] {
  if (!procedure?.phases.length) return 'none'
  return findings.some(({ severity }) => severity === 'error') ? 'unfinished' : 'ready'
}

type Shower = (at: Place) => ShownPlace

function placeShower(file: string, looked: Looked): Shower {
  const locate = locator([...looked.library.sources, ...looked.compiled.sources])
  return (at) => ({
    file: at.file === file ? null : at.file,
    start: at.start,
    end: at.end,
    line: locate(at).range?.start.line ?? null,
  })
}

function shownFinding(finding: Finding, file: string, shown: Shower): ShownFinding {
  const { name, severity, message, advice } = finding
  return {
    ...shown(finding.at),
    name,
    severity,
    message,
    advice,
    related: (finding.related ?? []).map((place) => ({ ...shown(place.at), message: place.message })),
    story: (finding.story ?? []).map((place) => ({ ...shown(place.at), text: place.text })),
    edit: shownEdit(finding, file),
  }
}

/** An edit that reaches into another file is told in words only: the page changes nothing that nobody sees. */
function shownEdit({ edit }: Finding, file: string): ShownEdit | null {
  if (edit === undefined || edit.changes.some(({ at }) => at.file !== file)) return null
  const changes = edit.changes.map(({ at, newText }) => ({ start: at.start, end: at.end, newText }))
  return { title: edit.title, afterLooking: edit.afterLooking === true, changes }
}

/** Each phase and step where it stands in the text, once, though a repeat has it several times. */
function stepMarks(procedure: Procedure, length: number): readonly StepMark[] {
  const marks = procedure.phases.flatMap((phase) => [
    markOf('phase', phase.number, phase.title, phase),
    ...withSubSteps(phase.steps).map((step) => markOf('step', step.number, step.text.plain, step)),
  ])
  const here = marks.filter(({ file }) => file === procedure.file).sort((a, b) => a.mark.start - b.mark.start)
  const once = here.filter(({ mark }, index) => mark.start !== here[index - 1]?.mark.start)
  return once.map(({ mark }, index) => ({ ...mark, end: once[index + 1]?.mark.start ?? length }))
}

function markOf(kind: StepMark['kind'], number: string, title: string, { id, at }: Phase | Step) {
  return { file: at.file, mark: { kind, number, title, start: at.start, end: at.end, anchor: anchorFor(id) } }
}

export function withSubSteps(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...withSubSteps(step.steps)])
}
