import type { Fault } from '../findings/finding.ts'
import { type BlockNode, partOf } from '../syntax/block-node.ts'
import type { WrittenBlock, WrittenProcedure } from '../syntax/written.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'
import { everyBlock, everyWrittenPart } from './written-words.ts'

const mark = /(?<![?\p{L}])\?\?(?![?\p{L}])/gu

/** Every place where the author wrote `??` for a value still to come. */
export function missingValues(written: WrittenProcedure): readonly Place[] {
  const inBlocks = everyBlock(written).flatMap(inBlock)
  const inSteps = everyWrittenPart(written).flatMap((part) =>
    'markdown' in part && holdsMark(part.markdown) ? [part.at] : [],
  )
  const inActs = everyWrittenPart(written).flatMap((part) =>
    'acts' in part ? part.acts.filter((act) => holdsMark(act.markdown)).map((act) => act.at) : [],
  )
  return [...inBlocks, ...inSteps, ...inActs]
}

const holdsMark = (text: string): boolean => text.match(mark) !== null

const inBlock = oncePer((block: WrittenBlock) => inNode(block.map))

function inNode(node: BlockNode): readonly Place[] {
  if (node.kind === 'list') return node.items.flatMap(inNode)
  if (node.kind === 'map') return node.entries.flatMap((entry) => inNode(entry.value))
  return [...node.text.matchAll(mark)].map(({ index }) => partOf(node, index, index + 2))
}

export function faultOf(at: Place, rest: string): Fault {
  return { at, message: `A value is missing here: ${rest}`, advice: 'Put the value in the place of ??.' }
}
