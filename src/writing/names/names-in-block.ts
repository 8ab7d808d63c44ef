import { tokensOf } from '../../quantities/expression-tokens.ts'
import type { ScalarNode } from '../../syntax/block-node.ts'
import { spanParts } from '../../syntax/short-form-looks.ts'
import type { Place } from '../../text/place.ts'
import type { SourceText } from '../../text/source-text.ts'
import { type PlacedBlock, type VisitedKey, type VisitedScalar, visitBlock } from '../blocks.ts'
import type { NameMark, NameSort } from './name-mark.ts'

/** What the words of the schemas (`holds`, `keysHold`, `keysDefine`) name. */
const sorts: Readonly<Record<string, NameSort>> = {
  step: 'step',
  'step-span': 'step',
  target: 'step',
  phase: 'step',
  'new-id': 'step',
  reading: 'reading',
  count: 'reading',
  torque: 'torque',
  state: 'state',
  'state-value': 'value',
  zone: 'zone',
  role: 'role',
  prover: 'role',
  hazard: 'hazard',
  resource: 'resource',
  ppe: 'resource',
  table: 'table',
  variant: 'variant',
  'variant-value': 'variant-value',
  permit: 'permit',
  watch: 'watch',
  machine: 'machine',
  'machine-energy': 'machine-energy',
  fragment: 'fragment',
  finding: 'finding',
}

/** Words of the language that stand where names stand. */
const words: Readonly<Partial<Record<NameSort, readonly string[]>>> = {
  step: ['this', 'stop', 'continue', 'otherwise', 'nothing'],
  zone: ['out'],
  role: ['reading', 'test', 'everyone'],
  value: ['unknown'],
  reading: ['and', 'or', 'not', 'in', 'limit', 'all', 'this'],
}

/** Keys whose things are states of that name, too. */
const pairedKeys = new Set(['removes', 'refits', 'locks', 'unlocks', 'puts-on', 'takes-off', 'snug', 'fits'])

/** Names in a block, whether they stand as keys, as values, in a short form or in a formula. */
export function namesInBlock(block: PlacedBlock, source: SourceText): readonly NameMark[] {
  const marks: NameMark[] = []
  visitBlock(block, {
    key: (key) => marks.push(...keyMarks(key, source)),
    scalar: (scalar) => marks.push(...scalarMarks(scalar, source)),
  })
  return marks
}

function keyMarks({ key, at, schema, value, path, isTyped }: VisitedKey, source: SourceText): readonly NameMark[] {
  if (schema === null) return []
  const { keysDefine, keysHold, properties } = schema.schema
  if (properties !== undefined && Object.hasOwn(properties, key)) return []
  const sort = sorts[keysDefine ?? keysHold ?? '']
  if (sort === undefined) return []
  const isReference = !isTyped || (value.kind === 'map' && value.entries.length === 0)
  const owner = sort === 'variant-value' ? null : ownerOf(sort, path)
  return named(
    { sort, typed: key, at, defines: keysDefine !== undefined && !isReference, owner, key: path[0] ?? null },
    source,
  )
}

function scalarMarks(visited: VisitedScalar, source: SourceText): readonly NameMark[] {
  const { scalar, schema, path } = visited
  const holds = schema?.schema.holds
  if (holds === undefined || scalar.contentStart === null) return []
  if (holds === 'expression' || holds === 'limit' || holds === 'count') return namesInFormula(scalar, source)
  if (holds === 'sentence') return namesInSentence(scalar, source)
  const sort = holds === 'resource' && pairedKeys.has(path[0] ?? '') ? 'thing' : sorts[holds]
  if (sort === undefined) return []
  if (holds === 'step-span' || holds === 'target') {
    const span = spanParts({ text: scalar.text, from: 0 })
    if (span !== null)
      return span.flatMap(([, { text, from }]) =>
        named(
          { sort, typed: text, at: within(scalar, from, text.length), defines: false, owner: null, key: null },
          source,
        ),
      )
  }
  const defines = definesValue(sort, path) || holds === 'new-id'
  const at = within(scalar, 0, scalar.text.length)
  return named({ sort, typed: scalar.text, at, defines, owner: ownerOf(sort, path), key: path[0] ?? null }, source)
}

/** `values` of a state and the values of a variant are where these get their meaning. */
function definesValue(sort: NameSort, path: readonly string[]): boolean {
  if (sort === 'value') return path[0] === 'states' && path[2] === 'values'
  return sort === 'variant-value' && path[0] === 'variants'
}

/** The state or variant that a value belongs to: the nearest key that names one. */
function ownerOf(sort: NameSort, path: readonly string[]): string | null {
  if (sort === 'value') {
    if (path[0] === 'states' && path[2] !== 'held-by') return path[1] ?? null
    return path.at(-1)?.split('.')[0] ?? null
  }
  return sort === 'variant-value' && path[0] === 'variants' ? (path[1] ?? null) : null
}

/** Names in a formula or in a limit that rests on readings; what the language itself says there is none. */
function namesInFormula(scalar: ScalarNode, source: SourceText): readonly NameMark[] {
  const tokens = tokensOf(scalar.text)
  if (!tokens.ok) return []
  return tokens.value.flatMap((token, index) => {
    if (token.is !== 'name') return []
    const next = tokens.value[index + 1]
    const isCall = next?.is === 'sign' && next.text === '('
    if (isCall || limitWords.has(token.text)) return []
    const at = within(scalar, token.from, token.text.length)
    return named({ sort: 'reading', typed: token.text, at, defines: false, owner: null, key: null }, source)
  })
}

const limitWords: ReadonlySet<string> = new Set(['max', 'min', 'under', 'over', 'aim', 'to'])

/** `[=id]` in a sentence of a block. */
function namesInSentence(scalar: ScalarNode, source: SourceText): readonly NameMark[] {
  return [...scalar.text.matchAll(/\[=\s*([^[\]]+?)\s*\]/g)].flatMap((match) => {
    const typed = match[1] ?? ''
    const at = within(scalar, match.index + match[0].indexOf(typed, 2), typed.length)
    return named({ sort: 'reading', typed, at, defines: false, owner: null, key: null }, source)
  })
}

function within(scalar: ScalarNode, from: number, length: number): Place {
  const start = (scalar.contentStart ?? scalar.at.start) + from
  return { file: scalar.at.file, start, end: start + length }
}

interface Typed {
  readonly sort: NameSort
  readonly typed: string
  readonly at: Place
  readonly defines: boolean
  readonly owner: string | null
  /** The outermost key. */
  readonly key: string | null
}

/** The mark of a name as it stands in the source; nothing where it is a word of the language or not there letter by letter. */
function named({ sort, typed, at, defines, owner, key }: Typed, source: SourceText): readonly NameMark[] {
  // `hub.left` is the hub of one position, `#tighten` a slip for `tighten`.
  const name = (sort === 'finding' ? typed : (typed.split('.')[0] ?? '')).replace(/^#/, '')
  if (name === '' || name.includes('(=') || name === '??' || words[sort]?.includes(name)) return []
  const around = source.text.slice(at.start, at.end)
  const index = around.indexOf(name)
  if (index < 0) return []
  const start = at.start + index
  return [{ sort, name, at: { file: at.file, start, end: start + name.length }, defines, owner, key, isInWords: false }]
}
