import type { SemanticTokens, SemanticTokensLegend } from 'vscode-languageserver/node'
import type { TextDocument } from 'vscode-languageserver-textdocument'
import { type MarkKind, markKinds, type SemanticMark } from '../../writing/semantic-marks.ts'

/** Kinds of marks as types that colour schemes know. */
const typeOf: Readonly<Record<MarkKind, string>> = {
  key: 'property',
  word: 'keyword',
  definition: 'variable',
  id: 'function',
  reading: 'variable',
  role: 'class',
  state: 'enum',
  value: 'enumMember',
  zone: 'namespace',
  resource: 'parameter',
  hazard: 'event',
  number: 'number',
  unit: 'type',
  missing: 'macro',
}

const types = [...new Set(markKinds.map((kind) => typeOf[kind]))]

export const tokenLegend: SemanticTokensLegend = { tokenTypes: types, tokenModifiers: ['definition'] }

/** Five numbers a mark, as the protocol wants them: lines and letters counted from the mark before. */
export function tokensOf(document: TextDocument, marks: readonly SemanticMark[]): SemanticTokens {
  const data: number[] = []
  let line = 0
  let character = 0
  for (const { start, end, kind } of marks) {
    const from = document.positionAt(start)
    const to = document.positionAt(end)
    if (from.line !== to.line) continue
    const isSameLine = from.line === line
    const modifiers = kind === 'definition' ? 1 : 0
    data.push(
      from.line - line,
      isSameLine ? from.character - character : from.character,
      end - start,
      types.indexOf(typeOf[kind]),
      modifiers,
    )
    line = from.line
    character = from.character
  }
  return { data }
}
