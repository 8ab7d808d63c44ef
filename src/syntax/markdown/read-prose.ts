import type {
  BlockContent,
  Code,
  DefinitionContent,
  List,
  ListItem,
  Paragraph,
  PhrasingContent,
  RootContent,
} from 'mdast'
import { blockOutOfPlace, detachedLink, headingOutOfPlace, ornament, stepsInBullet } from '../faults/faults.ts'
import type { Prose } from '../prose.ts'
import { indentAt, spaces } from './columns.ts'
import { isYaml, reportNoBlock } from './read-fence.ts'
import { readFigure, readInlines, trimInlines } from './read-inline.ts'
import { firstWords, placeOfNode, type Reading, report, sliceOf, startOf } from './reading.ts'
import { reportHtml } from './report-html.ts'
import { neededIndent, reportLinesInParagraph } from './report-lines.ts'

type Flow = RootContent | BlockContent | DefinitionContent

/** Anything that is neither heading, block nor step, where only prose may stand. */
export function readProse(reading: Reading, node: Flow): readonly Prose[] {
  switch (node.type) {
    case 'paragraph':
      return readParagraph(reading, node, node.children)
    case 'list':
      return [readList(reading, node)]
    case 'blockquote':
      return [{ kind: 'quote', children: node.children.flatMap((child) => readProse(reading, child)) }]
    case 'table': {
      const [head = [], ...rows] = node.children.map((row) =>
        row.children.map((cell) => trimInlines(readInlines(reading, cell.children))),
      )
      return [{ kind: 'table', head, rows }]
    }
    case 'code':
      reportBlockInProse(reading, node)
      return []
    case 'heading':
      report(reading, headingOutOfPlace, {
        at: placeOfNode(reading, node),
        message: `The heading "${firstWords(sliceOf(reading, node))}" stands inside a step, a bullet or a quote.`,
        advice: 'Start it at the left edge, with ## for a phase, or write it in **bold** as text.',
      })
      return []
    case 'html':
      reportHtml(reading, node)
      return []
    case 'thematicBreak':
      report(reading, ornament, {
        at: placeOfNode(reading, node),
        message: 'A line across the page is not printed.',
        advice: 'Delete it; phases are set apart in print.',
      })
      return []
    case 'definition':
      report(reading, detachedLink, {
        at: placeOfNode(reading, node),
        message: `The address "${firstWords(sliceOf(reading, node))}" stands apart from its words.`,
        advice: 'Write the address right behind the words, [words](#id), and delete this line.',
      })
      return []
    default:
      // The parser makes no other kind of node; if it ever does, its words are kept.
      return [{ kind: 'paragraph', children: [{ kind: 'text', text: sliceOf(reading, node) }] }]
  }
}

/** A paragraph; a picture in it becomes a figure of its own between what stands before and after it. */
export function readParagraph(
  reading: Reading,
  node: Paragraph,
  children: readonly PhrasingContent[],
): readonly Prose[] {
  reportLinesInParagraph(reading, node)
  const prose: Prose[] = []
  let run: PhrasingContent[] = []
  const closeRun = () => {
    const words = trimInlines(readInlines(reading, run))
    if (words.length > 0) prose.push({ kind: 'paragraph', children: words })
    run = []
  }
  for (const child of children) {
    if (child.type !== 'image') {
      run.push(child)
      continue
    }
    closeRun()
    prose.push(readFigure(reading, child))
  }
  closeRun()
  return prose
}

function readList(reading: Reading, node: List): Prose {
  if (node.ordered)
    report(reading, stepsInBullet, {
      at: placeOfNode(reading, node),
      message: `The numbered lines from "${firstWords(sliceOf(reading, node))}" stand where no step can stand.`,
      advice:
        'Use bullets (-) for text. For steps, start the numbers at the left edge of a phase or right below a step.',
    })
  return {
    kind: 'list',
    ordered: node.ordered === true,
    items: node.children.map((item) => readListItem(reading, item)),
  }
}

export function readListItem(reading: Reading, item: ListItem): readonly Prose[] {
  return item.children.flatMap((child) => readProse(reading, child))
}

function reportBlockInProse(reading: Reading, node: Code): void {
  if (!isYaml(reading, node)) {
    reportNoBlock(reading, node)
    return
  }
  const needed = neededIndent(reading, startOf(node))
  report(reading, blockOutOfPlace, {
    at: placeOfNode(reading, node),
    message: `This block has ${spaces(indentAt(reading.source, startOf(node)))} before it and stands inside a bullet or a quote, which takes none.`,
    advice:
      needed === 0
        ? 'Start its lines at the left edge, above the first step.'
        : `If it belongs to the step above, type ${spaces(needed)} before each of its lines.`,
  })
}
