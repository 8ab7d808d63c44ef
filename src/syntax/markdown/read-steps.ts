import type { List, ListItem, Paragraph } from 'mdast'
import { actWithDetails, stepWithoutText, substepTooDeep } from '../faults/faults.ts'
import type { Prose } from '../prose.ts'
import type { WrittenAct, WrittenStep } from '../written.ts'
import { contentColumn } from './columns.ts'
import { gather } from './gather.ts'
import type { Piece } from './pieces.ts'
import { readFence } from './read-fence.ts'
import { takeId } from './read-id.ts'
import { readInlines, trimInlines } from './read-inline.ts'
import { readListItem, readParagraph, readProse } from './read-prose.ts'
import { takeRoles } from './read-roles.ts'
import { endOf, firstWords, placeOf, placeOfNode, type Reading, report, sliceOf, startOf } from './reading.ts'
import { reportLinesInParagraph } from './report-lines.ts'
import { checkStepNumbers } from './step-numbers.ts'

/** Sub-steps are numbered with a letter (`3.1a`), and there is no number below those. */
const DEEPEST = 2

/** The items of an ordered list as steps; `depth` 1 at the left edge. */
export function readSteps(reading: Reading, list: List, depth: number): readonly WrittenStep[] {
  if (depth > DEEPEST)
    report(reading, substepTooDeep, {
      at: placeOfNode(reading, list),
      message: `"${firstWords(sliceOf(reading, list))}" stands three numbers deep.`,
      advice: 'Make it a sub-step beside the one above it, or start a phase of its own.',
    })
  return list.children.map((item) => readStep(reading, item, depth))
}

function readStep(reading: Reading, item: ListItem, depth: number): WrittenStep {
  const start = startOf(item)
  const typedNumber = /^\d{1,9}/.exec(sliceOf(reading, item))?.[0] ?? ''
  const [first, ...others] = item.children
  const acts: WrittenAct[] = []
  const pieces: Piece[] = []
  const instruction = first?.type === 'paragraph' ? first : null
  const figures: Prose[] = []
  const head = instruction === null ? null : readInstruction(reading, instruction, figures)
  for (const figure of figures) pieces.push({ kind: 'prose', prose: figure, at: placeOfNode(reading, item) })
  if (head === null || head.text.length === 0)
    report(reading, stepWithoutText, {
      at: placeOf(reading, start, start + typedNumber.length + 1),
      message: `Step ${typedNumber} has no instruction.`,
      advice: `Type what to do behind the number: ${typedNumber}. Tighten the bolts.`,
    })
  for (const node of instruction === null ? item.children : others) {
    if (node.type === 'list' && node.ordered)
      pieces.push({ kind: 'steps', steps: readSteps(reading, node, depth + 1), at: placeOfNode(reading, node) })
    else if (node.type === 'list') pieces.push(...readBullets(reading, node, acts))
    else if (node.type === 'code') {
      const block = readFence(reading, node)
      if (block !== null) pieces.push(block)
    } else
      for (const prose of readProse(reading, node))
        pieces.push({ kind: 'prose', prose, at: placeOfNode(reading, node) })
  }
  const { prose: details, block, steps } = gather(reading, pieces, contentColumn(reading.source, start))
  if (steps.length > 0) checkStepNumbers(reading, steps)
  const end = instruction === null ? start + typedNumber.length + 1 : endOf(instruction)
  return {
    typedNumber,
    id: head?.id ?? null,
    at: placeOf(reading, start, end),
    roles: head?.roles ?? [],
    text: head?.text ?? [],
    markdown: head?.markdown ?? '',
    acts,
    details,
    block,
    steps,
  }
}

/** Role, words and id of an instruction; its pictures go to the details. */
function readInstruction(reading: Reading, node: Paragraph, figures: Prose[]) {
  const { id, children: withoutId } = takeId(reading, node.children)
  const { roles, children, behind } = takeRoles(reading, withoutId)
  const words = children.filter((child) => child.type !== 'image')
  if (words.length < children.length)
    for (const prose of readParagraph(
      { source: reading.source, findings: [] },
      node,
      children.filter((child) => child.type === 'image'),
    ))
      figures.push(prose)
  reportLinesInParagraph(reading, node)
  return {
    id,
    roles,
    text: trimInlines(readInlines(reading, words)),
    markdown: typedWords(reading, behind, id?.at.start ?? endOf(node)),
  }
}

/** The words as typed, without the indentation of further lines. */
function typedWords(reading: Reading, start: number, end: number): string {
  return reading.source.text
    .slice(start, Math.max(start, end))
    .replace(/(?:\r\n|\n|\r)[ \t]*/g, '\n')
    .trim()
}

/** Bullets with a role are acts, the others details. */
function readBullets(reading: Reading, list: List, acts: WrittenAct[]): readonly Piece[] {
  const items: (readonly Prose[])[] = []
  for (const item of list.children) {
    const act = readAct(reading, item)
    if (act === null) items.push(readListItem(reading, item))
    else acts.push(act)
  }
  if (items.length === 0) return []
  return [{ kind: 'prose', prose: { kind: 'list', ordered: false, items }, at: placeOfNode(reading, list) }]
}

function readAct(reading: Reading, item: ListItem): WrittenAct | null {
  const [first, ...others] = item.children
  if (first?.type !== 'paragraph') return null
  const { roles, children, behind } = takeRoles(reading, first.children)
  if (roles.length === 0) return null
  reportLinesInParagraph(reading, first)
  const [next] = others
  if (next !== undefined)
    report(reading, actWithDetails, {
      at: placeOfNode(reading, next),
      message: `"${firstWords(sliceOf(reading, next))}" stands below the bullet of a role, which takes one sentence.`,
      advice: 'Put it in a bullet of the step, or make the acts steps of their own.',
    })
  return {
    roles,
    text: trimInlines(readInlines(reading, children)),
    markdown: typedWords(reading, behind, endOf(first)),
    at: placeOfNode(reading, first),
  }
}
