import type { Heading } from 'mdast'
import { headingWithoutWords, marksInHeading, underlinedHeading } from '../faults/faults.ts'
import { type Inline, plainText } from '../prose.ts'
import type { HeadingPiece } from './pieces.ts'
import { takeId } from './read-id.ts'
import { readInlines } from './read-inline.ts'
import { firstWords, placeOfNode, type Reading, report, sliceOf } from './reading.ts'

export function readHeading(reading: Reading, node: Heading): HeadingPiece {
  const at = placeOfNode(reading, node)
  const typed = sliceOf(reading, node)
  if (!typed.startsWith('#')) {
    const [words = ''] = typed.split(/[\r\n]/)
    const line = `${'#'.repeat(node.depth)} ${words.trim()}`
    report(reading, underlinedHeading, {
      at,
      message: `The line below it turns "${firstWords(words)}" into a heading.`,
      advice: `For a heading type ${firstWords(line)}. Otherwise delete the line below, or leave a line blank between them.`,
    })
  }
  const { id, children } = takeId(reading, node.children)
  const inlines = readInlines(reading, children)
  if (!inlines.every(isPlain))
    report(reading, marksInHeading, {
      at,
      message: `The heading "${firstWords(typed)}" holds a link or a value, which a heading cannot print.`,
      advice: 'Write the heading in plain words and put the link or value in the text below.',
    })
  const title = plainText(inlines).replace(/\s+/g, ' ').trim()
  if (title === '')
    report(reading, headingWithoutWords, {
      at,
      message: 'The heading has no words.',
      advice: `Type what it is for: ${'#'.repeat(node.depth)} Raise the axle`,
    })
  return { kind: 'heading', depth: node.depth, title, id, at }
}

function isPlain(inline: Inline): boolean {
  if (inline.kind === 'strong' || inline.kind === 'emphasis') return inline.children.every(isPlain)
  return inline.kind === 'text' || inline.kind === 'code' || inline.kind === 'break'
}
