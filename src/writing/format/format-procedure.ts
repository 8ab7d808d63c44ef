import type { TextChange } from '../../findings/finding.ts'
import { readFragment } from '../../syntax/read-fragment.ts'
import { readProcedure } from '../../syntax/read-procedure.ts'
import type { WrittenBlock } from '../../syntax/written.ts'
import { type SourceText, sourceText } from '../../text/source-text.ts'
import { blocksOf, blocksOfStep } from '../blocks.ts'
import { withChanges } from '../with-changes.ts'
import { formatYaml } from './format-yaml.ts'

/** A procedure with its front matter and blocks in their usual layout. Prose is never touched. */
export function formatProcedure(text: string): string {
  return withChanges(text, formatChanges('procedure.md', text))
}

/**
 * The changes that bring front matter and blocks of a procedure or fragment into their usual layout. A block that cannot
 * be read stays as it is. Formatting what was formatted changes nothing, and the step file stays the same.
 *
 * @param file path in the library: fragments are known by it
 */
export function formatChanges(file: string, text: string): readonly TextChange[] {
  const source = sourceText(file, text)
  const changes = blocksIn(source).flatMap((block) => changeOf(source, block))
  if (changes.length === 0) return []
  // The last word has the reader: what it reads must be the same, but for the places.
  const after = sourceText(file, withChanges(text, changes))
  return readAlike(source, after) ? changes : []
}

const isFragment = (file: string): boolean => file.startsWith('shared/fragments/')

function blocksIn(source: SourceText): readonly WrittenBlock[] {
  if (!isFragment(source.path)) return blocksOf(readProcedure(source).value).map(({ block }) => block)
  const { frontMatter, block, steps } = readFragment(source).value
  return [frontMatter, block, ...steps.flatMap(blocksOfStep).map((placed) => placed.block)].filter(
    (one) => one !== null,
  )
}

function readAlike(before: SourceText, after: SourceText): boolean {
  const read = isFragment(before.path) ? readFragment : readProcedure
  const plain = (source: SourceText): string => {
    const { value, findings } = read(source)
    return JSON.stringify([value, findings.map(({ name }) => name)], (key, inner) =>
      key === 'at' || key === 'keyAt' || key === 'contentStart' ? undefined : inner,
    )
  }
  return plain(before) === plain(after)
}

/** The lines between the fences, where their layout changes. */
function changeOf(source: SourceText, block: WrittenBlock): readonly TextChange[] {
  const { text } = source
  const lineStart = Math.max(text.lastIndexOf('\n', block.at.start - 1), text.lastIndexOf('\r', block.at.start - 1)) + 1
  const blanks = text.slice(lineStart, block.at.start).replace(/^\uFEFF/, '')
  // Behind a bullet or a quote mark, lines begin with more than blanks.
  if (!/^ *$/.test(blanks)) return []
  const opening = /\r\n|\n|\r/.exec(text.slice(block.at.start, block.at.end))
  if (opening === null) return []
  const start = block.at.start + opening.index + opening[0].length
  const end = Math.max(text.lastIndexOf('\n', block.at.end - 1), text.lastIndexOf('\r', block.at.end - 1)) + 1
  if (end <= start) return []
  const typed = text.slice(start, end)
  const lines = typed.split(/\r\n|\n|\r/).map((line) => withoutIndent(line, blanks.length))
  const formatted = formatYaml(lines.join('\n'))
  if (formatted === null) return []
  const newText = formatted
    .split('\n')
    .map((line) => (line === '' ? '' : blanks + line))
    .join(opening[0])
  return newText === typed ? [] : [{ at: { file: source.path, start, end }, newText }]
}

/** As a fence does: no more blanks than stand in front of it. */
function withoutIndent(line: string, most: number): string {
  const blanks = /^ */.exec(line)?.[0].length ?? 0
  return line.slice(Math.min(blanks, most))
}
