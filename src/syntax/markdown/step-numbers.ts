import type { TextChange } from '../../findings/finding.ts'
import { stepNumberOutOfOrder } from '../faults/faults.ts'
import type { WrittenStep } from '../written.ts'
import { placeOf, type Reading, report } from './reading.ts'

/**
 * Reports the first typed number that does not follow. The print counts for itself, so a number that jumps is often the
 * only trace of a step that was lost. `1.` before every step is allowed.
 */
export function checkStepNumbers(reading: Reading, steps: readonly WrittenStep[]): void {
  if (steps.every((step) => Number(step.typedNumber) === 1)) return
  const wrong = steps.findIndex((step, index) => Number(step.typedNumber) !== index + 1)
  const step = steps[wrong]
  if (step === undefined) return
  const before = steps[wrong - 1]
  const numberAt = placeOf(reading, step.at.start, step.at.start + step.typedNumber.length)
  const message =
    before === undefined
      ? `The first step here is numbered ${step.typedNumber}.`
      : Number(step.typedNumber) === Number(before.typedNumber)
        ? `The number ${step.typedNumber} stands twice.`
        : `Step ${step.typedNumber} follows step ${before.typedNumber}.`
  const changes = renumbered(reading, steps, wrong)
  report(reading, stepNumberOutOfOrder, {
    at: numberAt,
    message: `${message} In print it is number ${wrong + 1}.`,
    advice: `Look whether a step is missing; then type ${wrong + 1} here and go on from there.`,
    ...(before === undefined
      ? {}
      : { related: [{ at: before.at, message: `Step ${before.typedNumber} stands here.` }] }),
    ...(changes === null ? {} : { edit: { title: `Number from ${wrong + 1} on`, changes, afterLooking: true } }),
  })
}

/** New numbers from the wrong one on; null where one would be longer or shorter, which would move the text below it. */
function renumbered(reading: Reading, steps: readonly WrittenStep[], from: number): readonly TextChange[] | null {
  const changes: TextChange[] = []
  for (let index = from; index < steps.length; index++) {
    const step = steps[index]
    if (step === undefined) continue
    const newText = String(index + 1)
    if (newText.length !== step.typedNumber.length) return null
    if (newText !== step.typedNumber)
      changes.push({ at: placeOf(reading, step.at.start, step.at.start + newText.length), newText })
  }
  return changes
}
