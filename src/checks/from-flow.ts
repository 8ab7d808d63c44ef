import type { Fault, Severity } from '../findings/finding.ts'
import type { FlowFault, FlowFaultName, StoryLine } from '../flow/proof.ts'
import type { Check } from './check.ts'

interface FlowKind {
  readonly name: `flow/${FlowFaultName}`
  readonly severity: Severity
  readonly title: string
  readonly rules: readonly string[]
}

/** A check that tells what the following of every way has found under its name. */
export function fromFlow(kind: FlowKind): Check {
  return {
    ...kind,
    *run({ flow }): Iterable<Fault> {
      for (const fault of flow?.faults ?? []) if (`flow/${fault.fault}` === kind.name) yield told(fault)
    },
  }
}

/** A fault of the flow in the shape of every other. */
export function told({ at, message, advice, story, alsoAt, related }: FlowFault): Fault {
  const also = alsoAt.length === 0 ? '' : ` So it is at ${alsoAt.join(', ')}, too.`
  return {
    at,
    message: `${message}${also}`,
    advice,
    related,
    story: story.map((line) => ({ at: line.at, text: lineOf(line) })),
  }
}

/** `1.3 LEFT Slacken the take-up: take-up goes slack`. */
function lineOf({ number, position, says, changes }: StoryLine): string {
  const head = [number, position, says].filter((part) => part !== null && part !== '').join(' ')
  return changes === '' ? head : `${head}: ${changes}`
}
