import type { QuantityKind } from '../quantities/quantity-types.ts'
import type { BlockNode, ScalarNode } from '../syntax/block-node.ts'
import type { WrittenBlock, WrittenProcedure } from '../syntax/written.ts'
import { oncePer } from '../text/once-per.ts'
import { everyBlock } from './written-words.ts'

/** A figure under a key that tells what kind it must be of. */
export interface AmountOfKnownKind {
  readonly scalar: ScalarNode
  /** As the author knows it: `wait`, `torque`, `lapses`. */
  readonly key: string
  readonly kinds: readonly QuantityKind[]
}

/** The end of the way down to a figure, `*` being any name or place in a list, and the kinds that may stand there. */
const ways: readonly (readonly [way: string, key: string, ...kinds: readonly QuantityKind[]])[] = [
  ['torque * limit', 'torque', 'torque'],
  ['torque * limits *', 'torque', 'torque'],
  ['torque * or * limit', 'torque', 'torque'],
  ['torque * then-angle *', 'then-angle', 'angle'],
  ['torque * angle-sum', 'angle-sum', 'angle'],
  ['torque * turning', 'turning', 'angle', 'time'],
  ['torque * extension', 'extension', 'length'],
  ['torque * wrench-length', 'wrench-length', 'length'],
  ['wait * limit', 'wait', 'time'],
  ['takes likely', 'takes', 'time'],
  ['takes least', 'takes', 'time'],
  ['takes most', 'takes', 'time'],
  ['states * lapses', 'lapses', 'time'],
  ['permit * lapses', 'lapses', 'time'],
  ['keep * every', 'every', 'time'],
  ['keep * distance', 'distance', 'length'],
  ['ramp * hold', 'hold', 'time'],
  ['hot-work watch for', 'watch', 'time'],
  ['hot-work distance', 'distance', 'length'],
  ['hot-work preheat', 'preheat', 'temperature'],
  ['lift * load', 'lift', 'mass', 'force'],
  ['lift * leg-length', 'leg-length', 'length'],
  ['lift * hook-points', 'hook-points', 'length'],
  ['lift * height', 'height', 'length'],
  ['lift * radius', 'radius', 'length'],
  ['lift * wind', 'wind', 'speed'],
  ['support * load', 'support', 'mass', 'force'],
  ['support * spread', 'spread', 'length'],
  ['support * height', 'height', 'length'],
  ['support * ground-pressure', 'ground-pressure', 'pressure'],
  ['align * apart', 'apart', 'length'],
  ['align * circle', 'circle', 'length'],
  ['align * to-front', 'to-front', 'length'],
  ['align * to-rear', 'to-rear', 'length'],
  ['align * sag', 'sag', 'length'],
  ['align * target-front', 'target-front', 'length'],
  ['align * target-rear', 'target-rear', 'length'],
  ['wear * pitch', 'pitch', 'length'],
  ['wear * span', 'span', 'length'],
  ['rules height drop', 'height', 'length'],
  ['rules noise level', 'noise', 'sound-level'],
  ['rules noise for', 'for', 'time'],
  ['handle * load', 'handle', 'mass', 'force'],
  ['handle * reach', 'reach', 'length'],
  ['handle * from-height', 'from-height', 'length'],
  ['handle * to-height', 'to-height', 'length'],
  ['handle * carry', 'carry', 'length'],
  ['handle * turn', 'turn', 'angle'],
  ['handle * for', 'for', 'time'],
]

const split = ways.map(([way, key, ...kinds]) => ({ way: way.split(' '), key, kinds }))

/** Every figure of the text whose key tells its kind, in the order of the text. */
export function amountsOfKnownKind(written: WrittenProcedure): readonly AmountOfKnownKind[] {
  return everyBlock(written).flatMap(amountsOfBlock)
}

const amountsOfBlock = oncePer((block: WrittenBlock) => below(block.map, []))

function below(node: BlockNode, path: readonly string[]): readonly AmountOfKnownKind[] {
  if (node.kind === 'list') return node.items.flatMap((item, index) => below(item, [...path, String(index)]))
  if (node.kind === 'map') return node.entries.flatMap((entry) => below(entry.value, [...path, entry.key]))
  const found = split.find(({ way }) => endsIn(path, way))
  return found ? [{ scalar: node, key: nameIn(path, found.way) ?? found.key, kinds: found.kinds }] : []
}

/** A torque or a load has a name of its own: `torque: { gland-nut: … }`. */
function nameIn(path: readonly string[], way: readonly string[]): string | null {
  const [first, second, third] = way
  const isNamed = second === '*' && ['limit', 'load'].includes(third ?? '') && first !== 'wait'
  return isNamed ? (path[path.length - way.length + 1] ?? null) : null
}

/** Whether a path ends in the way, at the top of a block or where a step is written inside one (`undo`, `extra`). */
function endsIn(path: readonly string[], way: readonly string[]): boolean {
  const from = path.length - way.length
  if (from < 0) return false
  const before = path[from - 1]
  const isTop = from === 0 || before === 'undo' || (path[from - 2] === 'extra' && from === 2)
  return isTop && way.every((part, index) => part === '*' || part === path[from + index])
}
