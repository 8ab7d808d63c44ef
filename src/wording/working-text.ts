import type { StepSheet, TorqueSheet } from './step-file-parts.ts'

/** A figure of a step that was worked out, with how. */
export type WorkingSheet = StepSheet['workings'][number]

/** What belongs under one torque. Two variants of it share its name; then the sentence begins with which it is for. */
export function workingsOfTorque(step: StepSheet, torque: TorqueSheet): readonly WorkingSheet[] {
  const name = torque.id.split('@')[0]
  const ofName = step.workings.filter(({ key, of }) => key === 'torque' && of === name)
  const variant = `For ${torque.only?.values.join(', ')}: `
  const ofVariant = ofName.filter(({ says }) => says.startsWith(variant))
  return ofVariant.length > 0 ? ofVariant : ofName
}

/** What belongs under the entry of a key that is shown as it was written. */
export function workingsOfEntry(step: StepSheet, key: string): readonly WorkingSheet[] {
  return key === 'torque' ? [] : step.workings.filter((working) => working.key === key)
}

/** What stands under no torque and no entry, so that nothing is dropped. */
export function otherWorkings(step: StepSheet, entryKeys: readonly string[]): readonly WorkingSheet[] {
  const underTorques = step.torques.flatMap((torque) => workingsOfTorque(step, torque))
  return step.workings.filter((working) => !underTorques.includes(working) && !entryKeys.includes(working.key))
}
