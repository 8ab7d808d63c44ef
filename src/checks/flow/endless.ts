import type { Fault } from '../../findings/finding.ts'
import type { Consequence } from '../../model/outcomes.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { told } from '../from-flow.ts'

/** "Again until it is right", with no last try: at four in the morning, the sixth try is the one that hurts. */
export const endless: Check = {
  name: 'flow/endless',
  severity: 'error',
  title: 'Work is done again and again with no end.',
  rules: ['BR-08', 'NU-18'],

  *run({ procedure, flow }: CheckSubject): Iterable<Fault> {
    for (const { until, title, at, steps } of procedure.phases) {
      // A phase that is a loop through several phases stands in `until` of its last.
      if (until === null || (until.atMost !== null && until.otherwise !== null)) continue
      yield {
        at,
        message:
          until.atMost === null
            ? `"${title}" is repeated until ${until.condition}, and nothing says how often at most.`
            : `"${title}" is repeated at most ${until.atMost} times, and nothing says what follows then.`,
        advice: `Write in its repeat: at-most: ${until.atMost ?? 3}, else: stop`,
        ...(steps[0] ? { related: [{ at: steps[0].at, message: 'From here it is done again.' }] } : {}),
      }
    }
    const toldOf = new Set<string>()
    for (const { step } of everyWrittenStep(procedure)) {
      for (const again of step.consequences.flatMap(withLaterOnes)) {
        if (again.action !== 'redo' || (again.atMost !== null && again.then !== null)) continue
        toldOf.add(step.id)
        const numbers = again.targets.map((target) => target.number)
        // Targets that nobody knows are told by their own names.
        const where = numbers.length > 2 ? `${numbers[0]} to ${numbers.at(-1)}` : numbers.join(', ')
        const back = where === '' ? 'back' : `back to ${where}`
        yield {
          at: again.at,
          message:
            again.atMost === null
              ? `Step ${step.number} sends the work ${back}, and nothing says how often at most.`
              : `Step ${step.number} sends the work ${back}, at most ${again.atMost} times, and nothing says what follows then.`,
          advice: `Give it an end: at-most: ${again.atMost ?? 3}, then: stop`,
        }
      }
    }
    if (toldOf.size > 0 || procedure.phases.some(({ until }) => until !== null && until.atMost === null)) return
    // Ways that go round without a way back of their own: a decision that leads to an earlier phase.
    for (const fault of flow?.faults ?? []) if (fault.fault === 'endless') yield told(fault)
  },
}

function withLaterOnes(consequence: Consequence): readonly Consequence[] {
  return [consequence, ...(consequence.then ? withLaterOnes(consequence.then) : [])]
}
