import type { BlockPlace, BlockSchema } from '../syntax/fit-block-schema.ts'
import { exampleOfKey } from '../syntax/fit-example.ts'
import { type NameMark, sortInWords } from './names/name-mark.ts'
import type { OpenText } from './open-text.ts'
import { type OutlineEntry, outline } from './outline.ts'

const placeInWords: Readonly<Record<BlockPlace, string>> = {
  'front-matter': 'the front matter',
  document: 'the document block',
  phase: 'a phase',
  step: 'a step',
}

/** What a key is for, what it wants, where it may stand, and an example. */
export function schemaAsMarkdown(key: string, schema: BlockSchema, places: readonly BlockPlace[]): string {
  const { title, description, wants, examples } = schema
  const head = title === undefined || title.toLowerCase() === key ? `**${key}**` : `**${key}** (${title})`
  const parts = [`${head}${description === undefined ? '' : `: ${description}`}`]
  if (wants !== undefined) parts.push(`Wants ${wants}.`)
  if (schema.enum !== undefined) parts.push(`One of: ${schema.enum.map((value) => `\`${value}\``).join(', ')}.`)
  if (title !== undefined && places.length > 0)
    parts.push(`Stands in ${places.map((place) => placeInWords[place]).join(' or ')}.`)
  const [example] = examples ?? []
  if (example !== undefined && title !== undefined) parts.push(`\`\`\`yaml\n${exampleOfKey(key, example)}\n\`\`\``)
  return parts.join('\n\n')
}

/** What a name stands for, with the lines that say so. */
export function nameAsMarkdown(open: OpenText, mark: NameMark, definition: string | null): string {
  const head = `**${mark.name}** (${sortInWords[mark.sort]}${mark.owner === null ? '' : ` \`${mark.owner}\``})`
  const entry = mark.sort === 'step' ? entryOf(outline(open), mark.name) : null
  if (entry !== null) return `${head}: ${entry.detail} ${entry.name}`
  return definition === null ? head : `${head}\n\n\`\`\`yaml\n${definition}\n\`\`\``
}

function entryOf(entries: readonly OutlineEntry[], id: string): OutlineEntry | null {
  for (const entry of entries) {
    if (entry.id === id) return entry
    const inner = entryOf(entry.children, id)
    if (inner !== null) return inner
  }
  return null
}

/** The page of a kind of finding, without what is meant for the runner of its examples. */
export function findingAsMarkdown(name: string, page: string): string {
  if (page === '') return `**${name}**`
  return page
    .replace(/^# .*$/m, `**${name}**`)
    .replace(/^<!-- .* -->\n/gm, '')
    .replace(/^## (.*)$/gm, '**$1**')
    .trim()
}
