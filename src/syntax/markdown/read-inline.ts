import type { Image, PhrasingContent, Text } from 'mdast'
import {
  detachedLink,
  footnote,
  misplacedFigure,
  misplacedId,
  ornament,
  refusedLink,
  webFigure,
} from '../faults/faults.ts'
import type { Inline, Prose } from '../prose.ts'
import { endOf, firstWords, placeOf, placeOfNode, type Reading, report, sliceOf, startOf } from './reading.ts'
import { reportHtml } from './report-html.ts'

/** The words of a paragraph, heading or cell. Pictures have no place among them. */
export function readInlines(reading: Reading, nodes: readonly PhrasingContent[]): readonly Inline[] {
  return nodes.flatMap((node) => readInline(reading, node))
}

function readInline(reading: Reading, node: PhrasingContent): readonly Inline[] {
  switch (node.type) {
    case 'text':
      return readText(reading, node)
    case 'inlineCode':
      return [{ kind: 'code', text: node.value }]
    case 'break':
      return [{ kind: 'break' }]
    case 'strong':
    case 'emphasis':
      return [{ kind: node.type, children: readInlines(reading, node.children) }]
    case 'link':
      return readLink(reading, node.url, readInlines(reading, node.children), node)
    case 'image':
      report(reading, misplacedFigure, {
        at: placeOfNode(reading, node),
        message: `The picture "${node.url}" stands inside a heading, a table or other marks.`,
        advice: 'Put it in a paragraph of its own.',
      })
      return []
    case 'html':
      reportHtml(reading, node)
      return []
    case 'linkReference':
      report(reading, detachedLink, {
        at: placeOfNode(reading, node),
        message: `The address of "${firstWords(sliceOf(reading, node))}" stands elsewhere.`,
        advice: 'Write the address right behind the words: [words](#id).',
      })
      return readInlines(reading, node.children)
    case 'imageReference':
      report(reading, detachedLink, {
        at: placeOfNode(reading, node),
        message: `The file of the picture "${firstWords(sliceOf(reading, node))}" stands elsewhere.`,
        advice: 'Write the file right behind the description: ![description](figures/name.svg).',
      })
      return []
    default:
      // The parser makes no other kind of node; if it ever does, its words are kept.
      return [{ kind: 'text', text: sliceOf(reading, node) }]
  }
}

const WEB_OR_MAIL = /^(?:https?:\/\/|mailto:)/i

function readLink(
  reading: Reading,
  address: string,
  children: readonly Inline[],
  node: Extract<PhrasingContent, { type: 'link' }>,
): readonly Inline[] {
  const at = placeOfNode(reading, node)
  if (node.title)
    report(reading, ornament, {
      at,
      message: `The title "${firstWords(node.title)}" of the link is not printed.`,
      advice: 'Delete it, or write it in the text.',
    })
  if (address.startsWith('#')) return [{ kind: 'reference', to: address.slice(1), text: '', children, at }]
  if (WEB_OR_MAIL.test(address)) return [{ kind: 'link', address, children }]
  report(reading, refusedLink, {
    at,
    message:
      address === ''
        ? `The link ${firstWords(sliceOf(reading, node))} has no address.`
        : `The link leads to "${firstWords(address)}".`,
    advice: 'Links lead to a step or phase of this procedure (#id), or begin with https:, http: or mailto:.',
  })
  return children
}

const VALUE = /\[=([^[\]]+)\]/g

/** Splits `[=id]` off a text and reports what looks like a mark but is none. */
function readText(reading: Reading, node: Text): readonly Inline[] {
  reportStrayMarks(reading, node)
  const inlines: Inline[] = []
  const typed = sliceOf(reading, node)
  let done = 0
  let cursor = 0
  for (const match of node.value.matchAll(VALUE)) {
    const start = typed.indexOf(match[0], cursor)
    if (start < 0) continue
    cursor = start + match[0].length
    if (typed[start - 1] === '\\') continue
    pushText(inlines, node.value.slice(done, match.index))
    const at = placeOf(reading, startOf(node) + start, startOf(node) + cursor)
    inlines.push({ kind: 'value', name: (match[1] ?? '').trim(), text: '', at })
    done = match.index + match[0].length
  }
  pushText(inlines, node.value.slice(done))
  return inlines
}

/** A line end inside a paragraph is a blank. */
function pushText(inlines: Inline[], value: string): void {
  const text = value.replace(/[ \t]*(?:\r\n|\n|\r)[ \t]*/g, ' ')
  if (text !== '') inlines.push({ kind: 'text', text })
}

function reportStrayMarks(reading: Reading, node: Text): void {
  const typed = sliceOf(reading, node)
  for (const match of typed.matchAll(/(?<!\\)\{#[^{}]*\}/g)) {
    report(reading, misplacedId, {
      at: placeIn(reading, node, match),
      message: `The id ${match[0]} stands where nothing takes one.`,
      advice: 'Put an id at the end of a heading or at the end of the first paragraph of a step.',
    })
  }
  for (const match of typed.matchAll(/(?<!\\)\[\^[^\]\s]+\]/g)) {
    report(reading, footnote, {
      at: placeIn(reading, node, match),
      message: `The footnote ${match[0]} is not printed as one.`,
      advice: 'Write the note in parentheses, or as a bullet below the step.',
    })
  }
  for (const match of typed.matchAll(/(?<!\\)\[[^[\]=^][^[\]]*\]\[[^[\]]*\]/g)) {
    report(reading, detachedLink, {
      at: placeIn(reading, node, match),
      message: `The address of "${firstWords(match[0])}" does not stand right behind the words.`,
      advice: 'Write the address right behind the words: [words](#id).',
    })
  }
}

function placeIn(reading: Reading, node: Text, match: RegExpExecArray) {
  const start = startOf(node) + match.index
  return placeOf(reading, start, Math.min(endOf(node), start + match[0].length))
}

/** A picture as a paragraph of its own. */
export function readFigure(reading: Reading, node: Image): Prose {
  const at = placeOfNode(reading, node)
  if (/^(?:[a-z][a-z0-9+.-]*:|\/)/i.test(node.url))
    report(reading, webFigure, {
      at,
      message: `The picture "${firstWords(node.url)}" is not a file beside the procedure.`,
      advice: 'Put the picture in the folder figures/ beside the procedure and write figures/name.svg.',
    })
  return { kind: 'figure', file: node.url, alt: node.alt ?? '', caption: node.title ?? '', at }
}

/** Without blanks at either end. */
export function trimInlines(inlines: readonly Inline[]): readonly Inline[] {
  const trimmed = [...inlines]
  while (trimmed.length > 0) {
    const first = trimmed[0]
    if (first?.kind === 'text') {
      const text = first.text.trimStart()
      if (text !== '') {
        trimmed[0] = { kind: 'text', text }
        break
      }
    } else if (first?.kind !== 'break') break
    trimmed.shift()
  }
  while (trimmed.length > 0) {
    const last = trimmed.at(-1)
    if (last?.kind === 'text') {
      const text = last.text.trimEnd()
      if (text !== '') {
        trimmed[trimmed.length - 1] = { kind: 'text', text }
        break
      }
    } else if (last?.kind !== 'break') break
    trimmed.pop()
  }
  return trimmed
}
