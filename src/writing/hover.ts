import type { Finding } from '../findings/finding.ts'
import { quantitiesIn } from '../quantities/find-quantities-in-text.ts'
import { parseLimit } from '../quantities/parse-limit.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import { printLimit } from '../quantities/print-limit.ts'
import { valueAt } from '../syntax/block-node.ts'
import { blockKeys, propertySchema, schemaNamed } from '../syntax/fit-block-schema.ts'
import { blocksOf, type VisitedKey, type VisitedScalar, visitBlock } from './blocks.ts'
import { definitionText } from './definition-text.ts'
import { findingAsMarkdown, nameAsMarkdown, schemaAsMarkdown } from './explain-in-markdown.ts'
import { nameAt } from './names/find-names.ts'
import type { OpenText } from './open-text.ts'

export interface Hover {
  readonly start: number
  readonly end: number
  readonly markdown: string
}

/** What the editor knows besides the text. */
export interface HoverSources {
  readonly findings: readonly Finding[]
  /** The page of every kind of finding, by name. */
  readonly pages: Readonly<Record<string, string>>
}

/**
 * What there is to say about the word at an offset: what a key is for, a figure in the units of the print, what a name
 * stands for, and the page of each finding that is told there.
 */
export function hoverAt(
  open: OpenText,
  offset: number,
  sources: HoverSources = { findings: [], pages: {} },
): Hover | null {
  const told = [...new Set(findingsAt(open, offset, sources.findings))].map((name) =>
    findingAsMarkdown(name, sources.pages[name] ?? ''),
  )
  const word = wordAt(open, offset, sources)
  if (word === null && told.length === 0) return null
  const parts = [...(word === null ? [] : [word.markdown]), ...told]
  return { start: word?.start ?? offset, end: word?.end ?? offset, markdown: parts.join('\n\n---\n\n') }
}

function findingsAt(open: OpenText, offset: number, findings: readonly Finding[]): readonly string[] {
  return findings
    .filter(({ at }) => at.file === open.file && at.start <= offset && offset <= Math.max(at.end, at.start + 1))
    .map(({ name }) => name)
}

function wordAt(open: OpenText, offset: number, { pages }: HoverSources): Hover | null {
  const name = nameAt(open, offset)
  if (name !== null) {
    const { start, end } = name.at
    if (name.sort === 'finding') return { start, end, markdown: findingAsMarkdown(name.name, pages[name.name] ?? '') }
    return { start, end, markdown: nameAsMarkdown(open, name, definitionText(open, name)) }
  }
  return inBlock(open, offset) ?? figureInProse(open, offset)
}

function inBlock(open: OpenText, offset: number): Hover | null {
  const placed = blocksOf(open.written).find(({ block }) => block.at.start <= offset && offset <= block.at.end)
  if (placed === undefined) return null
  let found: Hover | null = null
  const touches = (start: number, end: number) => start <= offset && offset <= end
  visitBlock(placed, {
    key: (key) => {
      if (found === null && touches(key.at.start, key.at.end)) found = keyHover(key)
    },
    scalar: (scalar) => {
      const { start, end } = scalar.scalar.at
      if (found === null && touches(start, end)) found = figureHover(open, scalar)
    },
  })
  return found
}

function keyHover({ key, at, schema, path, isTyped }: VisitedKey): Hover | null {
  // A head has no word of its own in a short form: `350 N·m` is the limit.
  if (!isTyped && schema?.schema.short === undefined) return null
  const own =
    path.length === 0 && schema === null ? schemaNamed(`blocks/${key}`) : schema && propertySchema(schema, key)
  if (own === null) return null
  const isName = schema !== null && !Object.hasOwn(schema.schema.properties ?? {}, key)
  if (isName || (!isTyped && holdsFigure(own.schema.holds))) return null
  return { start: at.start, end: at.end, markdown: schemaAsMarkdown(key, own.schema, blockKeys.get(key)?.places ?? []) }
}

const holdsFigure = (holds: string | undefined): boolean =>
  holds === 'limit' || holds === 'quantity' || holds === 'amount' || holds === 'pass'

/** The figure as the print shows it. */
function figureHover(open: OpenText, { scalar, schema, parent }: VisitedScalar): Hover | null {
  if (!holdsFigure(schema?.schema.holds)) return null
  const limit = parseLimit(scalar.text)
  if (!limit.ok) return null
  const tool = parent === null ? undefined : valueAt(parent, 'with')
  const resolution = tool?.kind === 'scalar' ? resolutionOf(open, tool.text) : null
  const printed = printLimit(limit.value, { systems: systemsOf(open), ...(resolution ? { resolution } : {}) })
  const { start, end } = scalar.at
  const typed = `Typed: \`${scalar.text}\`. What was typed is what is judged; the second unit is rounded to the safe side.`
  const aim = printed.aimText === undefined ? '' : `, aim ${printed.aimText}`
  return { start, end, markdown: `**${printed.text}${aim}**\n\n${typed}` }
}

/** The smallest step of an instrument, as this text or the library says. */
function resolutionOf(open: OpenText, tool: string) {
  const { tools, instruments } = open.library.catalogues
  const own = open.written.block && valueAt(valueAt(open.written.block.map, 'tools'), tool)
  const fact = [own ?? undefined, instruments.get(tool), tools.get(tool)]
    .map((node) => valueAt(node, 'resolution'))
    .find((node) => node?.kind === 'scalar')
  const read = fact?.kind === 'scalar' ? parseQuantity(fact.text) : null
  return read?.ok ? { value: read.value.value, unit: read.value.unit } : null
}

/** Units that the document prints in; both where it prints in one only, for that is what a hover is for. */
function systemsOf(open: OpenText): readonly ('metric' | 'inch')[] {
  const asked = open.written.frontMatter && valueAt(open.written.frontMatter.map, 'print-units')
  const items = asked?.kind === 'list' ? asked.items : asked ? [asked] : []
  const [lead] = items.flatMap((item) => (item.kind === 'scalar' ? [item.text] : []))
  const first = lead ?? open.library.configuration.printUnits[0]
  return first === 'inch' ? ['inch', 'metric'] : ['metric', 'inch']
}

function figureInProse(open: OpenText, offset: number): Hover | null {
  const lineStart = open.text.lastIndexOf('\n', offset - 1) + 1
  const lineEnd = open.text.indexOf('\n', offset)
  const line = open.text.slice(lineStart, lineEnd < 0 ? open.text.length : lineEnd)
  const { quantities, pairs } = quantitiesIn(line)
  const within = offset - lineStart
  const found = [...pairs.map(({ first, from, to }) => ({ ...first, from, to })), ...quantities].find(
    ({ from, to }) => from <= within && within <= to,
  )
  if (found === undefined) return null
  const printed = printLimit(found.limit, { systems: systemsOf(open) })
  return { start: lineStart + found.from, end: lineStart + found.to, markdown: `**${printed.text}**` }
}
