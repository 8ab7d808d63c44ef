import { type BlockNode, valueAt } from '../../syntax/block-node.ts'
import type { Consequence, Decide, DecideBranch, Target } from '../outcomes.ts'
import { itemsOf, scalarsOf, textAt } from './read-node.ts'
import { claimsFrom, type Scope } from './resolve-claims.ts'

/**
 * `else` of a step or of one reading, and what follows when a repeat runs out of tries.
 * Targets are names as typed here; `link-targets.ts` turns them into ids and numbers.
 */
export function consequencesFrom(
  node: BlockNode | undefined,
  reading: string | null,
  scope: Scope,
): readonly Consequence[] {
  if (node === undefined) return []
  const low = valueAt(node, 'low')
  const high = valueAt(node, 'high')
  const sides = [
    ...(low ? [consequence('low', low, reading, scope)] : []),
    ...(high ? [consequence('high', high, reading, scope)] : []),
  ]
  return sides.length > 0 ? sides : [consequence('out', node, reading, scope)]
}

export function consequence(on: Consequence['on'], node: BlockNode, reading: string | null, scope: Scope): Consequence {
  const then = valueAt(node, 'then')
  const common = {
    on,
    reading,
    atMost: wholeNumber(textAt(node, 'at-most')),
    then: then ? consequence(on, then, reading, scope) : null,
    leave: claimsFrom(valueAt(node, 'leave'), scope),
    at: node.at,
  }
  const redo = valueAt(node, 'redo')
  if (redo) return { ...common, action: 'redo', targets: targetsFrom(redo), reason: textAt(node, 'because') }
  const stop = valueAt(node, 'stop')
  if (stop) return { ...common, action: 'stop', targets: [], reason: textAt(node, 'stop') || null }
  const go = textAt(node, 'go')
  if (go !== null) return { ...common, action: 'go', targets: [{ id: go, number: '' }], reason: null }
  return { ...common, action: 'continue', targets: [], reason: textAt(node, 'continue') || null }
}

/** `this`, `brake-bleed`, `[a, c to f]`: a range keeps its two ends until it is linked. */
export function targetsFrom(node: BlockNode | undefined): readonly Target[] {
  return scalarsOf(node).map((scalar) => ({ id: scalar.text, number: '' }))
}

export function decideFrom(node: BlockNode | undefined, scope: Scope): Decide | null {
  if (node === undefined) return null
  const branches = itemsOf(valueAt(node, 'branches')).map((item): DecideBranch => {
    const otherwise = textAt(item, 'otherwise')
    const typedTarget = textAt(item, 'go') ?? ''
    const action = typedTarget === 'stop' || typedTarget === 'continue' ? typedTarget : 'go'
    return {
      answer: textAt(item, 'answer'),
      when: textAt(item, 'when'),
      otherwise: otherwise !== null,
      target: action === 'go' ? { id: typedTarget, number: '' } : null,
      action,
      reason: textAt(item, 'because'),
      leave: claimsFrom(valueAt(item, 'leave'), scope),
      at: item.at,
    }
  })
  return { ask: textAt(node, 'ask') ?? '', branches }
}

export function wholeNumber(text: string | null): number | null {
  return text !== null && /^\d{1,6}$/.test(text.trim()) ? Number(text) : null
}
