import { type CompletionItem, CompletionItemKind, InsertTextFormat, InsertTextMode } from 'vscode-languageserver/node'
import type { TextDocument } from 'vscode-languageserver-textdocument'
import type { Suggestion, SuggestionKind } from '../../writing/completion/suggestion.ts'
import { rangeOf } from './ranges.ts'

const kinds: Readonly<Record<SuggestionKind, CompletionItemKind>> = {
  key: CompletionItemKind.Property,
  word: CompletionItemKind.Keyword,
  block: CompletionItemKind.Snippet,
  choice: CompletionItemKind.EnumMember,
  unit: CompletionItemKind.Unit,
  step: CompletionItemKind.Reference,
  reading: CompletionItemKind.Variable,
  torque: CompletionItemKind.Variable,
  state: CompletionItemKind.Enum,
  value: CompletionItemKind.EnumMember,
  zone: CompletionItemKind.Module,
  role: CompletionItemKind.Class,
  resource: CompletionItemKind.Field,
  thing: CompletionItemKind.Field,
  hazard: CompletionItemKind.Event,
  table: CompletionItemKind.Struct,
  variant: CompletionItemKind.Enum,
  machine: CompletionItemKind.File,
  fragment: CompletionItemKind.File,
  parameter: CompletionItemKind.TypeParameter,
  finding: CompletionItemKind.Constant,
}

/** A suggestion as an editor takes it, in the order in which they were made. */
export function completionItem(
  document: TextDocument,
  suggestion: Suggestion,
  index: number,
  canSnippets: boolean,
): CompletionItem {
  const { label, kind, detail, documentation, start, end, insert, caret } = suggestion
  const isSnippet = canSnippets && caret < insert.length
  const newText = isSnippet ? `${escaped(insert.slice(0, caret))}$0${escaped(insert.slice(caret))}` : insert
  return {
    label,
    kind: kinds[kind],
    sortText: String(index).padStart(4, '0'),
    filterText: kind === 'block' ? document.getText().slice(start, end) + label : label,
    insertTextFormat: isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    insertTextMode: InsertTextMode.asIs,
    textEdit: { range: rangeOf(document, start, end), newText },
    ...(detail === '' ? {} : { detail }),
    ...(documentation === '' ? {} : { documentation: { kind: 'markdown', value: documentation } }),
  }
}

const escaped = (text: string): string => text.replace(/[\\$}]/g, '\\$&')
