import type { StepFile } from '../../step-file/step-file.ts'
import { onlyInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps, type OnlySheet, type StepSheet } from '../../wording/step-file-parts.ts'
import type { LeftOut } from './sheet.ts'

/** Variant to value: `{ 'wheel-stud': 'm22' }`. */
export type VariantChoice = Readonly<Record<string, string>>

export interface ForVariant {
  /** With what applies only; numbers, labels of holds and digest as they were. */
  readonly stepFile: StepFile
  readonly leftOut: readonly LeftOut[]
  /** By phase id. */
  readonly leftOutOf: ReadonlyMap<string, readonly LeftOut[]>
}

/** What a copy for one machine shows. Nothing is numbered anew: a number means the same in every copy. */
export function forVariant(stepFile: StepFile, choice: VariantChoice): ForVariant {
  const leftOut: LeftOut[] = []
  const leftOutOf = new Map<string, readonly LeftOut[]>()
  const fits = (only: OnlySheet | null) =>
    only === null || choice[only.variant] === undefined || only.values.includes(choice[only.variant] ?? '')
  const leave = (number: string, text: string, only: OnlySheet | null) => {
    if (only !== null) leftOut.push({ number, text, because: onlyInWords(only) })
  }
  const kept = (steps: readonly StepSheet[]): StepSheet[] =>
    steps.flatMap((step) => {
      if (!fits(step.only)) {
        leave(step.number, step.text.plain.replace(/\.$/, ''), step.only)
        return []
      }
      for (const one of [...step.torques, ...step.readings])
        if (!fits(one.only)) leave(step.number, inWords(one.name), one.only)
      const gone = new Set(
        [...step.torques, ...step.readings].flatMap((one) => (fits(one.only) ? [] : [one.id, one.name])),
      )
      return [
        {
          ...step,
          only: settled(step.only, choice),
          torques: step.torques
            .filter(({ only }) => fits(only))
            .map((one) => ({ ...one, only: settled(one.only, choice) })),
          readings: step.readings
            .filter(({ only }) => fits(only))
            .map((one) => ({ ...one, only: settled(one.only, choice) })),
          // A figure that was worked out for another machine must not be taken for this one's.
          workings: step.workings.filter(({ of }) => !gone.has(of)),
          steps: kept(step.steps),
        },
      ]
    })
  const phases = stepFile.phases.flatMap((phase) => {
    if (!fits(phase.only)) {
      leave(phase.number, `${phase.title}${phase.position === null ? '' : `, ${phase.position.label}`}`, phase.only)
      return []
    }
    const from = leftOut.length
    const steps = kept(phase.steps)
    leftOutOf.set(phase.id, leftOut.slice(from))
    return [{ ...phase, only: settled(phase.only, choice), steps }]
  })
  return { stepFile: { ...stepFile, phases, resources: stillUsed(stepFile, phases) }, leftOut, leftOutOf }
}

/** Where the copy is for that variant, its marks say nothing any more. */
function settled(only: OnlySheet | null, choice: VariantChoice): OnlySheet | null {
  return only !== null && choice[only.variant] !== undefined ? null : only
}

/** Without tools and parts that only left-out steps use. */
function stillUsed(stepFile: StepFile, phases: StepFile['phases']): StepFile['resources'] {
  const all = stepFile.phases.flatMap((phase) => allSteps(phase.steps))
  const gone = new Set(all.map(({ id }) => id))
  for (const step of phases.flatMap((phase) => allSteps(phase.steps))) gone.delete(step.id)
  const phasesLeft = new Set(phases.map(({ id }) => id))
  const stays = ({ usedIn }: StepFile['resources']['tools'][number]) =>
    usedIn.length === 0 || usedIn.some(({ phase, step }) => (step === null ? isLeft(phase) : !gone.has(step)))
  const isLeft = (phase: string) =>
    phasesLeft.has(phase) ||
    [...phasesLeft].some((id) => id.startsWith(`${phase}@`)) ||
    !stepFile.phases.some(({ id }) => id === phase)
  const { tools, gear, parts, consumables, ppe } = stepFile.resources
  return {
    tools: tools.filter(stays),
    gear: gear.filter(stays),
    parts: parts.filter(stays),
    consumables: consumables.filter(stays),
    ppe: ppe.filter(stays),
  }
}
