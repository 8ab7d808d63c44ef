import { valueAt } from '../../syntax/block-node.ts'
import { readFragment } from '../../syntax/read-fragment.ts'
import { sourceText } from '../../text/source-text.ts'
import { blocksOf, blocksOfStep, type PlacedBlock } from '../blocks.ts'
import type { OpenText } from '../open-text.ts'
import { namesOfStep } from './collect-names.ts'
import type { NameMark } from './name-mark.ts'
import { namesInBlock } from './names-in-block.ts'
import { namesInProse } from './names-in-prose.ts'

export interface FragmentNames {
  readonly id: string
  readonly names: readonly NameMark[]
}

/** The names that stand in the fragments which a procedure includes. */
export function namesInFragments(open: OpenText): readonly FragmentNames[] {
  const ids = blocksOf(open.written).flatMap(({ block }) => {
    const include = valueAt(block.map, 'include')
    const fragment = include?.kind === 'scalar' ? include : valueAt(include, 'fragment')
    return fragment?.kind === 'scalar' ? [fragment.text] : []
  })
  return [...new Set(ids)].flatMap((id) => {
    const path = `shared/fragments/${id}.md`
    const answer = open.library.reader.readText(path)
    if (answer.kind !== 'text') return []
    const source = sourceText(path, answer.text)
    const { prose, block, steps } = readFragment(source).value
    const blocks: readonly PlacedBlock[] = [
      ...(block === null ? [] : [{ place: 'phase' as const, block }]),
      ...steps.flatMap(blocksOfStep),
    ]
    const names = [
      ...namesInProse(prose, source),
      ...steps.flatMap((step) => namesOfStep(step, source)),
      ...blocks.flatMap((placed) => namesInBlock(placed, source)),
    ]
    return [{ id, names }]
  })
}
