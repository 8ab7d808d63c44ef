import { type DocumentSymbol, type SymbolInformation, SymbolKind } from 'vscode-languageserver/node'
import type { TextDocument } from 'vscode-languageserver-textdocument'
import type { OutlineEntry } from '../../writing/outline.ts'
import { rangeOf } from './ranges.ts'

const kinds: Readonly<Record<OutlineEntry['kind'], SymbolKind>> = {
  phase: SymbolKind.Module,
  branch: SymbolKind.Namespace,
  step: SymbolKind.Method,
}

export function documentSymbols(document: TextDocument, entries: readonly OutlineEntry[]): DocumentSymbol[] {
  return entries.map((entry) => ({
    name: `${entry.detail} ${entry.name}`,
    ...(entry.id === null ? {} : { detail: entry.id }),
    kind: kinds[entry.kind],
    range: rangeOf(document, entry.start, entry.end),
    selectionRange: rangeOf(document, entry.nameStart, entry.nameEnd),
    children: documentSymbols(document, entry.children),
  }))
}

/** For editors that know no tree. */
export function flatSymbols(document: TextDocument, entries: readonly OutlineEntry[]): SymbolInformation[] {
  return entries.flatMap((entry) => [
    {
      name: `${entry.detail} ${entry.name}`,
      kind: kinds[entry.kind],
      location: { uri: document.uri, range: rangeOf(document, entry.start, entry.end) },
    },
    ...flatSymbols(document, entry.children),
  ])
}
