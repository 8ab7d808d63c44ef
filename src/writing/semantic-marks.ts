import { scanNumber } from '../quantities/parse-number.ts'
import { unitInText } from '../quantities/unit-in-text.ts'
import type { ScalarNode } from '../syntax/block-node.ts'
import { isLeftOpen } from '../syntax/short-form-looks.ts'
import { blocksOf, type VisitedScalar, visitBlock } from './blocks.ts'
import type { NameMark, NameSort } from './names/name-mark.ts'
import type { OpenText } from './open-text.ts'

/** A stretch of the text and what it is, for colours. */
export interface SemanticMark {
  readonly start: number
  readonly end: number
  readonly kind: MarkKind
}

export const markKinds = [
  'key',
  'word',
  'definition',
  'id',
  'reading',
  'role',
  'state',
  'value',
  'zone',
  'resource',
  'hazard',
  'number',
  'unit',
  'missing',
] as const
export type MarkKind = (typeof markKinds)[number]

const kindOfSort: Readonly<Partial<Record<NameSort, MarkKind>>> = {
  step: 'id',
  reading: 'reading',
  torque: 'reading',
  state: 'state',
  value: 'value',
  'variant-value': 'value',
  zone: 'zone',
  role: 'role',
  hazard: 'hazard',
  resource: 'resource',
  thing: 'resource',
}

/** Keys, names, figures and units of a text from top to bottom; no two overlap. */
export function semanticMarks(open: OpenText): readonly SemanticMark[] {
  const keys: SemanticMark[] = []
  const amounts: SemanticMark[] = []
  const named = new Set(open.names.map(({ at }) => at.start))
  for (const block of blocksOf(open.written))
    visitBlock(block, {
      key: ({ at, isTyped }) => {
        const isWord = at.end > at.start
        if (isWord && !named.has(at.start)) keys.push({ start: at.start, end: at.end, kind: isTyped ? 'key' : 'word' })
      },
      scalar: (scalar) => amounts.push(...figures(scalar)),
    })
  // What a head of a short form is says more than that it is one.
  const marks = [...open.names.flatMap(nameMarks), ...amounts, ...keys]
  return withoutOverlap(marks)
}

function nameMarks({ sort, at, defines }: NameMark): readonly SemanticMark[] {
  const kind = defines ? 'definition' : (kindOfSort[sort] ?? 'word')
  return [{ start: at.start, end: at.end, kind }]
}

const holdsFigures = new Set([
  'limit',
  'quantity',
  'pass',
  'amount',
  'count',
  'unit',
  'angle',
  'expression',
  'number',
  'value',
])

function figures({ scalar, schema }: VisitedScalar): readonly SemanticMark[] {
  const { contentStart, text } = scalar
  if (contentStart === null) return []
  if (isLeftOpen(text) && text.includes('??')) {
    const from = contentStart + text.indexOf('??')
    return [{ start: from, end: from + 2, kind: 'missing' }]
  }
  const holds = schema?.schema.holds ?? ''
  if (!holdsFigures.has(holds)) return []
  if (holds === 'unit') return [{ start: contentStart, end: contentStart + text.length, kind: 'unit' }]
  return figuresIn(scalar, contentStart)
}

function figuresIn({ text }: ScalarNode, contentStart: number): readonly SemanticMark[] {
  const marks: SemanticMark[] = []
  for (let at = 0; at < text.length; ) {
    if (!/[\d½⅓⅔¼¾⅛⅜⅝⅞]/.test(text[at] ?? '') || /[\p{L}_-]/u.test(text[at - 1] ?? '')) {
      at++
      continue
    }
    const number = scanNumber(text, at)
    const to = number.ok ? number.value.to : at + 1
    marks.push({ start: contentStart + at, end: contentStart + to, kind: 'number' })
    const unit = unitInText(text, to, false)
    if (unit !== null && unit.to > to) {
      const blanks = /^\s*/.exec(text.slice(to))?.[0].length ?? 0
      marks.push({ start: contentStart + to + blanks, end: contentStart + unit.to, kind: 'unit' })
    }
    at = Math.max(to, unit?.to ?? 0)
  }
  return marks
}

/** Where two meet, the one that begins first stays, and of two that begin together the shorter one. */
function withoutOverlap(marks: readonly SemanticMark[]): readonly SemanticMark[] {
  const kept: SemanticMark[] = []
  for (const mark of [...marks].sort((a, b) => a.start - b.start || a.end - b.end))
    if (mark.end > mark.start && mark.start >= (kept.at(-1)?.end ?? 0)) kept.push(mark)
  return kept
}
