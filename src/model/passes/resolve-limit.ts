import { type Finding, found } from '../../findings/finding.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { printLimit } from '../../quantities/print-limit.ts'
import type { PrintedLimit } from '../../quantities/quantity-types.ts'
import { partOf, type ScalarNode } from '../../syntax/block-node.ts'
import { unreadableLimit } from '../faults/faults.ts'

/** What limits are printed in, and where their faults go. */
export interface LimitContext {
  readonly systems: readonly ('metric' | 'inch')[]
  readonly findings: Finding[]
  /** Names of all readings: a limit that uses one is worked out at the bench, not here. */
  readonly readingNames: ReadonlySet<string>
}

/** `??`: a value that is still to be filled in. */
export const MISSING_VALUE = '??'

/** A typed limit with its printed forms, or null where it cannot be read (which is reported) or is still missing. */
export function resolveLimit(scalar: ScalarNode | null, context: LimitContext): PrintedLimit | null {
  if (scalar === null || scalar.text.includes(MISSING_VALUE)) return null
  const parsed = parseLimit(scalar.text)
  if (parsed.ok) return withAim(printLimit(parsed.value, { systems: context.systems }))
  const { message, advice, from, to } = parsed.problem
  context.findings.push(found(unreadableLimit, { at: partOf(scalar, from, to), message, advice }))
  return null
}

/** The band comes first, what to aim for behind it: `238 to 262 N·m (…), aim 250 N·m (…)`. */
function withAim(limit: PrintedLimit): PrintedLimit {
  return limit.aimText === undefined ? limit : { ...limit, text: `${limit.text}, aim ${limit.aimText}` }
}
