import type { Condition, ReadCondition } from './conditions.ts'
import { FIRST_CELL, NO, NOT_TAKEN, SPOILED, UNANSWERED, YES } from './layout.ts'
import { type Run, report } from './run.ts'

/** Follows both answers where a condition is not decided; what was answered stays in the situation. */
export function follow(
  run: Run,
  row: Uint8Array,
  read: ReadCondition,
  onwards: (row: Uint8Array, holds: boolean) => void,
): void {
  lookAtReadings(run, row, read.reads)
  answer(run, row, read.condition, onwards)
}

function answer(
  run: Run,
  row: Uint8Array,
  condition: Condition,
  onwards: (row: Uint8Array, holds: boolean) => void,
): void {
  const known = truth(run, row, condition)
  if (known !== UNANSWERED) {
    onwards(row, known === YES)
    return
  }
  const slot = run.plan.layout.answer[run.asked] ?? 0
  for (const given of [YES, NO]) {
    const branch = row.slice()
    branch[slot] = given
    answer(run, branch, condition, onwards)
  }
}

/** `YES`, `NO`, or `UNANSWERED` with the question in `run.asked`. */
function truth(run: Run, row: Uint8Array, condition: Condition): number {
  const { layout } = run.plan
  switch (condition.is) {
    case 'state':
      return condition.ok[row[layout.value[condition.state] ?? 0] ?? 0] ? YES : NO
    case 'cell': {
      const status = row[layout.reading[condition.reading] ?? 0] ?? NOT_TAKEN
      if (status >= FIRST_CELL) return condition.ok[status - FIRST_CELL] ? YES : NO
      return asked(run, row, condition.question)
    }
    case 'question':
      return asked(run, row, condition.question)
    case 'not': {
      const of = truth(run, row, condition.of)
      return of === UNANSWERED ? of : of === YES ? NO : YES
    }
    case 'and':
    case 'or': {
      const decides = condition.is === 'and' ? NO : YES
      const left = truth(run, row, condition.left)
      if (left === decides) return decides
      const askedLeft = run.asked
      const right = truth(run, row, condition.right)
      if (right === decides) return decides
      if (left === UNANSWERED) {
        run.asked = askedLeft
        return UNANSWERED
      }
      return right
    }
  }
}

function asked(run: Run, row: Uint8Array, question: number): number {
  const given = row[run.plan.layout.answer[question] ?? 0] ?? UNANSWERED
  if (given === UNANSWERED) run.asked = question
  return given
}

/** Whoever decides or works something out needs the readings for it. */
export function lookAtReadings(run: Run, row: Uint8Array, reads: readonly number[]): void {
  for (const reading of reads) {
    const status = row[run.plan.layout.reading[reading] ?? 0]
    if (status === NOT_TAKEN) report(run, 'reading-missing', reading)
    if (status === SPOILED) report(run, 'reading-stale', reading)
  }
}
