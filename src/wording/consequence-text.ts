import type { StepFile } from '../step-file/step-file.ts'
import { claimsInWords, inWords } from './state-text.ts'
import type { ConsequenceSheet } from './step-file-parts.ts'

export interface ConsequenceLine {
  /** `OUT`, `LOW`, `OUT, TRY 3`: what has happened. */
  readonly head: string
  /** What is done then. */
  readonly text: string
  /** The work stops here. */
  readonly stops: boolean
  /** Step and phase ids that `text` names by number. */
  readonly targets: readonly string[]
}

/**
 * What follows when a reading or check is not in limit, one line a turn:
 *
 *     OUT         Do 7.1 and 7.3 again. 3 tries at most, the first included.
 *     OUT, TRY 3  STOP. Do not close the hub. Leave as it is: hub slung.
 *
 * `here` is the id of the step that is judged; going back to it alone reads "Do this step again".
 */
export function consequenceLines(
  stepFile: StepFile,
  consequence: ConsequenceSheet,
  here: string,
): readonly ConsequenceLine[] {
  const reading = consequence.reading === null ? '' : ` (${inWords(lastName(consequence.reading))})`
  return linesFrom(stepFile, consequence, here, consequence.on.toUpperCase() + reading)
}

function linesFrom(
  stepFile: StepFile,
  consequence: ConsequenceSheet,
  here: string,
  head: string,
): readonly ConsequenceLine[] {
  const line: ConsequenceLine = {
    head,
    text: whatToDo(stepFile, consequence, here),
    stops: consequence.action === 'stop',
    targets: consequence.targets.map((target) => target.id).filter((id) => id !== here),
  }
  if (consequence.then === null) return [line]
  const last = consequence.atMost === null ? 'STILL OUT' : `${head}, TRY ${consequence.atMost}`
  return [line, ...linesFrom(stepFile, consequence.then, here, last)]
}

function whatToDo(stepFile: StepFile, consequence: ConsequenceSheet, here: string): string {
  const because = consequence.reason === null ? '' : ` ${sentence(consequence.reason)}`
  switch (consequence.action) {
    case 'continue':
      return `Write it down and go on.${because}`
    case 'go':
      return `Go to ${targetList(stepFile, consequence)}.${because}`
    case 'redo':
      return `${again(stepFile, consequence, here)}${tries(consequence.atMost)}${because}`
    case 'stop': {
      const leave =
        consequence.leave.length === 0 ? '' : ` Leave as it is: ${claimsInWords(stepFile, consequence.leave)}.`
      return `STOP.${because}${leave}`
    }
  }
}

function again(stepFile: StepFile, consequence: ConsequenceSheet, here: string): string {
  const only = consequence.targets.length === 1 ? consequence.targets[0] : undefined
  if (consequence.targets.length === 0 || only?.id === here) return 'Do this step again.'
  if (only) return `Back to ${targetList(stepFile, consequence)}, and on from there again.`
  return `Do ${targetList(stepFile, consequence)} again.`
}

function tries(atMost: number | null): string {
  if (atMost === null) return ''
  return atMost === 1 ? ' One try only.' : ` ${atMost} tries at most, the first included.`
}

/** Numbers with the title where a whole phase is meant: `5A (Reuse the bearings)`. */
function targetList(stepFile: StepFile, consequence: ConsequenceSheet): string {
  const first = consequence.targets[0]
  const last = consequence.targets.at(-1)
  if (first && last && consequence.targets.length > 2 && areInARow(stepFile, consequence)) {
    return `${first.number} to ${targetInWords(stepFile, last)}`
  }
  return consequence.targets.map((target) => targetInWords(stepFile, target)).join(', ')
}

function areInARow(stepFile: StepFile, { targets }: ConsequenceSheet): boolean {
  const order = stepFile.phases.flatMap((phase) => phase.steps.map((step) => step.id))
  const from = order.indexOf(targets[0]?.id ?? '')
  return from >= 0 && targets.every((target, index) => order[from + index] === target.id)
}

export function targetInWords(stepFile: StepFile, target: { readonly id: string; readonly number: string }): string {
  const phase = stepFile.phases.find((candidate) => candidate.id === target.id)
  if (phase) return `${target.number} ${phase.title}${phase.position ? ` ${phase.position.label}` : ''}`
  const repeated = stepFile.phases.find((candidate) => target.id.startsWith(`${candidate.id}/`))
  return repeated?.position ? `${target.number} ${repeated.position.label}` : target.number
}

/** The name of a reading, from a full id `step#name` or `step/name` or a bare name. */
function lastName(id: string): string {
  return id.split(/[#/]/).at(-1) ?? id
}

function sentence(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`
}
