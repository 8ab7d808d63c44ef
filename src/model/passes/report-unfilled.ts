import { type Finding, found } from '../../findings/finding.ts'
import type { BlockNode } from '../../syntax/block-node.ts'
import type { WrittenStep } from '../../syntax/written.ts'
import type { Place } from '../../text/place.ts'
import { parameterUnfilled } from '../faults/faults.ts'
import type { Position } from '../procedure.ts'
import { parametersIn } from './substitute.ts'

/** Reports every `(=name)` that no fragment, row or position has filled by the time the step is resolved. */
export function reportUnfilled(
  step: WrittenStep,
  position: Position | null,
  { findings }: { readonly findings: Finding[] },
): void {
  const given = (position?.values ?? []).map(({ name }) => `(=${name})`)
  const report = (text: string, at: Place): void => {
    for (const name of parametersIn(text))
      findings.push(
        found(parameterUnfilled, {
          at,
          message: `(=${name}) stands here, and nothing puts a value in its place.`,
          advice: `${given.length > 0 ? `This repeat gives ${given.join(' and ')}. ` : ''}Write the value, or hand it over: \`with: { ${name}: … }\` where a fragment is included, a column "${name}" where rows are repeated.`,
        }),
      )
  }
  report(step.markdown, step.at)
  for (const act of step.acts) report(act.markdown, act.at)
  if (step.block) reportNode(step.block.map, report)
}

function reportNode(node: BlockNode, report: (text: string, at: Place) => void): void {
  if (node.kind === 'scalar') report(node.text, node.at)
  else if (node.kind === 'list') for (const item of node.items) reportNode(item, report)
  else
    for (const entry of node.entries) {
      report(entry.key, entry.keyAt)
      reportNode(entry.value, report)
    }
}
