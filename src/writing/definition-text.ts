import { blocksOf, visitBlock } from './blocks.ts'
import { cataloguesOf, sameNames } from './names/find-names.ts'
import type { NameMark } from './names/name-mark.ts'
import type { OpenText } from './open-text.ts'

/** The lines that give a name its meaning, as typed; null where there are none. */
export function definitionText(open: OpenText, mark: NameMark): string | null {
  if (mark.sort === 'value' || mark.sort === 'variant-value') return null
  const definition = sameNames(open, mark).find(({ defines }) => defines)
  if (definition !== undefined && definition.sort !== 'step') {
    const end = endOfEntry(open, definition.at.start)
    return end === null ? null : dedented(open.text, definition.at.start, end)
  }
  for (const items of cataloguesOf(open, mark.sort)) {
    const node = items.get(mark.name)
    if (node === undefined) continue
    const text = open.library.sources.find(({ path }) => path === node.at.file)?.text ?? ''
    const start = text.lastIndexOf(mark.name, node.at.start)
    return start < 0 ? null : dedented(text, start, node.at.end)
  }
  return null
}

/** Where the value behind a key ends. */
function endOfEntry(open: OpenText, keyStart: number): number | null {
  let end: number | null = null
  for (const placed of blocksOf(open.written)) {
    const { at } = placed.block
    if (keyStart < at.start || keyStart > at.end) continue
    visitBlock(placed, {
      key: (key) => {
        if (key.at.start === keyStart) end = key.value.at.end
      },
      scalar: () => {},
    })
  }
  return end
}

function dedented(text: string, start: number, end: number): string {
  const lineStart = text.lastIndexOf('\n', start) + 1
  const indent = /^\s*/.exec(text.slice(lineStart, start))?.[0] ?? ''
  return text
    .slice(start, end)
    .split(/\r\n|\n|\r/)
    .map((line, index) => (index > 0 && line.startsWith(indent) ? line.slice(indent.length) : line))
    .join('\n')
    .trimEnd()
}
