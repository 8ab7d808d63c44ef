import { found } from '../../findings/finding.ts'
import type { BlockNode } from '../../syntax/block-node.ts'
import { valueAt } from '../../syntax/block-node.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { NamedText } from '../entries.ts'
import { fastenerUnknown } from '../faults/faults.ts'
import { scalarsAt, textAt } from './read-node.ts'
import type { LimitContext } from './resolve-limit.ts'

/** What a torque tightens, in the words of the step and of the library. */
export interface TorqueFastener {
  /** `4 × M20 8.8`; null where nothing is said. */
  readonly fastener: string | null
  /** `zinc, dry`; null where nothing is said. */
  readonly lubrication: string | null
  readonly facts: readonly NamedText[]
}

/**
 * What is tightened and what is on its thread. A fastener named by the library brings size, pitch, grade, finish and lubrication; what the step
 * itself says comes first. An unknown name is reported.
 */
export function torqueFastener(node: BlockNode, context: LimitContext): TorqueFastener {
  const written = valueAt(node, 'fastener')
  const item = itemOf(written, context)
  const field = (name: string) => textAt(written, name) ?? textAt(item, name)
  const size = sizeOf(field('size'), textAt(item, 'pitch')) ?? textAt(written, 'of')
  const words = [size, field('grade')].filter(Boolean).join(' ')
  const count = textAt(written, 'count')
  const own = (name: string) => textAt(node, name) ?? textAt(item, name)
  const name = textAt(item, 'name')
  return {
    fastener: written === undefined ? null : count === null ? words : `${count} × ${words}`,
    lubrication: [own('finish'), own('lubrication')].filter(Boolean).join(', ') || null,
    facts: name === null ? [] : [{ name: 'what', text: name }],
  }
}

function itemOf(written: BlockNode | undefined, context: LimitContext): BlockNode | undefined {
  const [of] = scalarsAt(written, 'of')
  if (of === undefined) return undefined
  const known = context.fasteners ?? new Map<string, BlockNode>()
  const item = known.get(of.text)
  if (item !== undefined) return item
  const near = nearestName(of.text, [...known.keys()])
  context.findings.push(
    found(fastenerUnknown, {
      at: of.at,
      message: `The library has no fastener "${of.text}".`,
      advice: near
        ? `Did you mean "${near}"?`
        : 'Write it into a file in shared/fasteners, or give size and grade here: 4 × M20 8.8.',
    }),
  )
  return undefined
}

/** `M22` with a pitch of `1.5 mm` is `M22×1.5`; inch sizes carry their threads themselves. */
function sizeOf(size: string | null, pitch: string | null): string | null {
  if (size === null || pitch === null || !/^M\d+(?:[.,]\d+)?$/.test(size)) return size
  const figure = /^[\d.,]+(?=\s*mm$)/.exec(pitch)?.[0]
  return figure === undefined ? size : `${size}×${figure}`
}
