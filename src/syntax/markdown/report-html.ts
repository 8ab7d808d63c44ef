import { comment, hiddenByComment, rawHtml } from '../faults/faults.ts'
import { firstWords, type Positioned, placeOfNode, type Reading, report, sliceOf } from './reading.ts'

const WORK = /^[ \t]*(?:(?:`{3,}|~{3,})|#{1,6}[ \t]|\d{1,9}[.)][ \t])/m

/** HTML never passes; a comment passes unprinted, unless work or a warning could hide in it. */
export function reportHtml(reading: Reading, node: Positioned): void {
  const at = placeOfNode(reading, node)
  const words = sliceOf(reading, node)
  if (!words.startsWith('<!--')) {
    report(reading, rawHtml, {
      at,
      message: `"${firstWords(words)}" is HTML, which no output carries.`,
      advice: 'Write it as plain text. For the sign < itself, type \\<.',
    })
    return
  }
  const inside = words.replace(/^<!--/, '').replace(/-->\s*$/, '')
  const isOpen = !words.includes('-->')
  if (isOpen || WORK.test(inside)) {
    report(reading, hiddenByComment, {
      at,
      message: isOpen
        ? 'The comment that begins here is not closed: everything below it is hidden.'
        : `The comment "${firstWords(inside)}" hides a step, a block or a heading.`,
      advice: isOpen ? 'Type --> where the comment ends.' : 'Delete it; earlier revisions keep what it holds.',
    })
    return
  }
  const behind = words.slice(words.lastIndexOf('-->') + 3)
  if (behind.trim() !== '') {
    report(reading, hiddenByComment, {
      at,
      message: `"${firstWords(behind)}" stands on the line of a comment and is not printed.`,
      advice: 'Start a new line behind -->, and leave a line blank.',
    })
    return
  }
  report(reading, comment, {
    at,
    message: `The comment "${firstWords(inside)}" is not printed.`,
    advice: 'If someone must read it, write it as text.',
  })
}
