import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { listIn, type NamedPart, namedParts } from '../entry-data.ts'
import { everyWrittenStep } from '../every-step.ts'

const takesOver = /\b(?:lower|let\w* down|set\w* down|down on|stands?|crib\w*|blocks?|props?|trestles?|timber)\b/i
/** As far into the next phase as still counts as at once. */
const INTO_NEXT_PHASE = 2

/** A jack lifts; it does not hold. */
export const leftOnJack: Check = {
  name: 'lifting/left-on-jack',
  severity: 'error',
  title: 'A load is jacked up, and nothing else takes it over at once.',
  rules: ['LI-10'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const steps = everyWrittenStep(procedure)
    const order = new Map(steps.map(({ step }, index) => [step.id, index]))
    const onElse = new Set(
      namedParts(procedure, 'support')
        .filter((support) => !isOnJacks(support, procedure))
        .map(({ name, step }) => `${name} ${step.id}`),
    )
    for (const support of namedParts(procedure, 'support')) {
      if (!isOnJacks(support, procedure)) continue
      const from = order.get(support.step.id) ?? 0
      const after = steps.findIndex(({ phase }, index) => index > from && phase.id !== support.phase.id)
      const soon = steps.slice(from, after === -1 ? steps.length : after + INTO_NEXT_PHASE).map(({ step }) => step)
      if (soon.some((step) => takesOver.test(step.text.plain) || onElse.has(`${support.name} ${step.id}`))) continue
      yield {
        at: support.at,
        message: `"${support.name}" stands on ${listIn(support.data, 'on').join(' and ')} in step ${support.step.number}, and no step after it puts it on stands or blocks, or lowers it.`,
        advice:
          'Add the step right after it: support: { …: "…, on stand-left stand-right" }, before anybody goes near.',
      }
    }
  },
}

function isOnJacks({ data }: NamedPart, { resources }: Procedure): boolean {
  const on = listIn(data, 'on')
  return (
    on.length > 0 &&
    on.every((id) => /\bjacks?\b/i.test(`${id} ${resources.gear.find((one) => one.id === id)?.name ?? ''}`))
  )
}
