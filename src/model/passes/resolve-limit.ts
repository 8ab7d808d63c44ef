import { type Finding, found } from '../../findings/finding.ts'
import { parseAccuracy } from '../../quantities/accuracy.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { parseQuantity } from '../../quantities/parse-quantity.ts'
import { printLimit } from '../../quantities/print-limit.ts'
import type { PrintedLimit, QuantityProblem } from '../../quantities/quantity-types.ts'
import { multiply, rational, toExactText } from '../../quantities/rational.ts'
import { type BlockNode, partOf, type ScalarNode } from '../../syntax/block-node.ts'
import type { LookUpTable } from '../entries.ts'
import { unreadableLimit } from '../faults/faults.ts'
import type { ReadingUncertainty } from '../readings.ts'
import type { Variant } from '../variants.ts'

/** What limits are printed in, what they may name, and where their faults go. */
export interface LimitContext {
  readonly systems: readonly ('metric' | 'inch')[]
  readonly findings: Finding[]
  /** Names of all readings, each with the unit it is written down in: a limit that uses one is worked out at the bench. */
  readonly readingUnits: ReadonlyMap<string, string>
  readonly variants: readonly Variant[]
  readonly tables: readonly LookUpTable[]
  /** What a tool is said to be, here or in the library: `resolution` of `dial-indicator`. */
  readonly toolFact: (tool: string, fact: string) => string | null
  /** Fasteners of the library by name. */
  readonly fasteners?: ReadonlyMap<string, BlockNode>
}

/** `??`: a value that is still to be filled in. */
export const MISSING_VALUE = '??'

/** A typed limit with its printed forms, or null where it cannot be read (which is reported) or is still missing. */
export function resolveLimit(
  scalar: ScalarNode | null,
  context: LimitContext,
  tools: readonly string[] = [],
): PrintedLimit | null {
  if (scalar === null || scalar.text.includes(MISSING_VALUE)) return null
  const parsed = parseLimit(scalar.text)
  if (parsed.ok) return withAim(printLimit(parsed.value, printOptions(context, tools)))
  reportLimit(scalar, parsed.problem, context)
  return null
}

export function reportLimit(scalar: ScalarNode, problem: QuantityProblem, context: LimitContext): void {
  const { message, advice, from, to } = problem
  context.findings.push(found(unreadableLimit, { at: partOf(scalar, from, to), message, advice }))
}

export function reportUncertainty(scalar: ScalarNode, context: LimitContext): void {
  if (scalar.text.includes(MISSING_VALUE)) return
  const message = `"${scalar.text}" cannot be read as an uncertainty.`
  const advice = 'Type a figure with its unit, such as `0.02 mm`, or a share: `1 %`, `1 % of range`.'
  reportLimit(scalar, { message, advice, from: 0, to: scalar.text.length }, context)
}

/** In which units a limit prints, and the marks of the instrument that reads it: the second unit must be readable on them. */
export function printOptions(context: LimitContext, tools: readonly string[]) {
  const resolutions = tools.flatMap((tool) => {
    const typed = context.toolFact(tool, 'resolution')
    const read = typed === null ? null : parseQuantity(typed)
    return read?.ok ? [read.value] : []
  })
  const [resolution] = resolutions
  return resolution && resolutions.length === 1
    ? { systems: context.systems, resolution: { value: resolution.value, unit: resolution.unit } }
    : { systems: context.systems }
}

/** The band comes first, what to aim for behind it: `238 to 262 N·m (…), aim 250 N·m (…)`. */
export function withAim(limit: PrintedLimit): PrintedLimit {
  return limit.aimText === undefined ? limit : { ...limit, text: `${limit.text}, aim ${limit.aimText}` }
}

/** The uncertainty of a reading: its own, else that of its instrument; null where nobody gave one. */
export function resolveUncertainty(
  own: string | null,
  tools: readonly string[],
  context: LimitContext,
): ReadingUncertainty | null {
  const ofTools = tools.flatMap((tool) => context.toolFact(tool, 'uncertainty') ?? [])
  const typed = own ?? (ofTools.length === 1 ? ofTools[0] : undefined)
  const read = typed === undefined ? null : parseAccuracy(typed)
  if (typed === undefined || read === null) return null
  if (read.is === 'amount') return { typed, exact: toExactText(read.value), unit: read.unit }
  const percent = toExactText(multiply(read.share, rational(100)))
  if (read.is === 'share-of-reading') return { typed, exact: percent, unit: '%' }
  const [tool] = tools
  const range = tool === undefined ? null : context.toolFact(tool, 'range')
  const limit = range === null ? null : parseLimit(range)
  if (!limit?.ok || !limit.value.upper) return null
  return { typed, exact: toExactText(multiply(read.share, limit.value.upper.value)), unit: limit.value.unit }
}
