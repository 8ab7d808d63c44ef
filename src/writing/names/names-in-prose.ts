import type { Inline, Prose } from '../../syntax/prose.ts'
import type { WrittenRole } from '../../syntax/written.ts'
import { identifierFrom } from '../../text/identifier.ts'
import type { Place } from '../../text/place.ts'
import type { SourceText } from '../../text/source-text.ts'
import type { NameMark, NameSort } from './name-mark.ts'

export function namesInProse(prose: readonly Prose[], source: SourceText): readonly NameMark[] {
  return prose.flatMap((piece): readonly NameMark[] => {
    switch (piece.kind) {
      case 'paragraph':
        return namesInInlines(piece.children, source)
      case 'list':
        return piece.items.flatMap((item) => namesInProse(item, source))
      case 'quote':
        return namesInProse(piece.children, source)
      case 'table':
        return [...piece.head, ...piece.rows.flat()].flatMap((cell) => namesInInlines(cell, source))
      case 'figure':
        return []
    }
  })
}

export function namesInInlines(inlines: readonly Inline[], source: SourceText): readonly NameMark[] {
  return inlines.flatMap((inline): readonly NameMark[] => {
    switch (inline.kind) {
      case 'strong':
      case 'emphasis':
      case 'link':
        return namesInInlines(inline.children, source)
      case 'reference':
        return [
          ...namesInInlines(inline.children, source),
          ...inMark(inline.at, /\]\(\s*<?#/g, inline.to, 'step', source),
        ]
      case 'value':
        return inMark(inline.at, /\[=\s*/g, inline.name, 'reading', source)
      default:
        return []
    }
  })
}

/** The letters of a name behind the last opening mark in a stretch of text. */
function inMark(
  at: Place | undefined,
  opening: RegExp,
  typed: string,
  sort: NameSort,
  source: SourceText,
): readonly NameMark[] {
  if (at === undefined) return []
  const stretch = source.text.slice(at.start, at.end)
  const last = [...stretch.matchAll(opening)].at(-1)
  if (last === undefined) return []
  const start = at.start + last.index + last[0].length
  // `[=gap.left]` is the place `left` of the reading `gap`.
  const name = typed.split('.')[0] ?? ''
  if (name === '' || !source.text.startsWith(name, start)) return []
  return [
    {
      sort,
      name,
      at: { ...at, start, end: start + name.length },
      defines: false,
      owner: null,
      key: null,
      isInWords: false,
    },
  ]
}

/** `**Tyre fitter:**` names the role `tyre-fitter`. */
export function roleMarks(roles: readonly WrittenRole[]): readonly NameMark[] {
  return roles.map(({ name, at }) => ({
    sort: 'role',
    name: identifierFrom(name),
    at,
    defines: false,
    owner: null,
    key: null,
    isInWords: true,
  }))
}
